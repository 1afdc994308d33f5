"""Figures of lesson 02: the crystals on a bowl's way, the seed balance and a bowl's log."""

import numpy as np

from pastrylab.ground import datasets
from pastrylab.logs import cooling
from pastrylab.page.guess import Met
from pastrylab.page.picture import BAND, HABIT, INK, LINE, LOST, Picture
from pastrylab.trade import chocolate, crystals, tempering
from pastrylab.trade.weighing import us_mass

_HABIT = tuple(100 * share for share in tempering.SEED_OF_MELT)
_HABIT_TEXT = "{:.0f}-{:.0f} %".format(*_HABIT)


class CrystalPath(Picture):
    """A bowl melted out, cooled and worked, against the melting points of cocoa butter's six forms."""

    _DRAWN = {  # fate -> (style, width, colour, words)
        crystals.FORMS: ("-", 3.2, INK, "can stand"),
        crystals.STAYS: ("-", 3.2, LOST, "never melted out"),
        crystals.EDGE: ("--", 2.2, INK, "at its edge"),
        crystals.MELTS: (":", 2.0, INK, "came, melted again"),
        crystals.NONE: (":", 1.0, "#666666", "cannot form"),
        crystals.LATER: (":", 1.0, "#666666", "only later, out of V"),
    }

    def __init__(self):
        super().__init__(height=4.6)
        axes = self.axes
        axes.set_title("Which crystals the bowl can hold", fontsize=14, loc="left")
        axes.set_ylabel("temperature, °F or °C")
        axes.set_xticks((0.5, 1.5, 2.5), ("melted\nout" if self.narrow else "melted out", "cooled", "worked"))
        axes.set(xlim=(0, 3), ylim=(14, 52))
        (self._path,) = axes.plot([], [], color=LINE, lw=2.5, marker="o", ms=9, mfc="white", mew=2.2)
        self._lines, self._words = {}, {}
        for row in datasets.cocoa_butter():
            name, at = row["form"], row["melts_at"]
            self._lines[name] = axes.axhline(at)
            said = f"{name}: {'' if self.narrow else 'came, '}melted again"
            place = {"transform": axes.get_yaxis_transform(), "va": "center", "fontsize": 11}
            self._words[name] = axes.text(1.01, at, said, **place)
        # III stands close under IV, and each label is as tall as the gap.
        self._words["III"].set_va("top")
        self._words["IV"].set_va("bottom")
        if self.narrow:
            self._words["II"].set_va("top")
            self.figure.set_figheight(4.4)

    def update(self, *, melted_to, cooled_to, warmed_to, system="metric"):
        """Floats in degC. Returns the sentence. Raises StudentError as forms_after does."""
        forms = crystals.forms_after.floats(melted_to, cooled_to, warmed_to)
        self._path.set_data((0.5, 1.5, 2.5), (melted_to, cooled_to, warmed_to))
        for form in forms:
            style, width, colour, words = self._DRAWN[form.fate]
            words = words.removeprefix("came, ").removeprefix("only ") if self.narrow else words
            self._lines[form.name].set(linestyle=style, linewidth=width, color=colour)
            self._words[form.name].set(
                text=f"{form.name}: {words}", color=colour, weight="bold" if form.stands else "normal"
            )
        if self.axes.get_ylabel() != (label := f"temperature, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_ylabel(label)
            self.temperature_axis(self.axes.yaxis, system)
        self.alt = self._says(forms, self.write(warmed_to, "degC", system))
        return self.alt

    def _says(self, forms, at):
        named = {fate: [form.name for form in forms if form.fate == fate] for fate in self._DRAWN}
        stand = [form.name for form in forms if form.stands]
        if left := named[crystals.STAYS]:
            old = f"Not melted out: {_listed('form', left)} from before still stand{'s' if len(left) == 1 else ''}"
            if "V" in left:
                return f"{old}. If the chocolate was in temper, it can serve as its own seed; if it was bloomed, it stays so."
            return f"{old}."
        weak = [name for name in stand if name in ("I", "II", "III", "IV")]
        if not stand:
            return f"At {at} no form can stand: nothing sets, however long you stir."
        if weak:
            return f"At {at} {_listed('form', stand)} can stand together: the weak ones make it dull and soft. Warm it."
        again = named[crystals.MELTS]
        gone = (
            f" {_listed('Form', again)} came on the way and melted again."
            if again
            else " No weak form came on the way."
        )
        edge = " It is at its edge." if "V" in named[crystals.EDGE] else ""
        return f"At {at} form V can stand, and no weaker one.{edge}{gone}"


def _listed(word, names):
    """ "form V", "forms III, IV and V"."""
    if len(names) == 1:
        return f"{word} {names[0]}"
    return f"{word}s {', '.join(names[:-1])} and {names[-1]}"


class SeedBalance(Picture):
    """Where a bowl ends up as seed goes in, and the seed that brings it to the target."""

    def __init__(self):
        super().__init__()
        axes = self.axes
        axes.set_title("Where the bowl ends up as seed goes in", fontsize=14, loc="left")
        axes.set_xlabel("seed, % of the melted chocolate")
        axes.set_ylabel("temperature of the bowl, °F or °C")
        self._habit = axes.axvspan(
            *_HABIT, facecolor=HABIT, edgecolor="#9a9a9a", hatch="//", alpha=0.6, lw=0, label=f"habit: {_HABIT_TEXT}"
        )
        self._band = axes.axhspan(31, 32, facecolor=BAND, alpha=0.75, lw=0, label="working band")
        (self._curve,) = axes.plot([], [], color=LINE, lw=2.5, label="bowl, by heat balance")
        (self._drop,) = axes.plot([], [], color=INK, lw=1.2, ls="--")
        (self._point,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="the seed you need")
        axes.legend(loc="upper right", frameon=True, fontsize=11)
        axes.set(xlim=(0, 60), ylim=(24, 56))

    def update(self, *, batch, melted_at, seed_at, target, melted_share, bowl_loss=0.0, kind="dark", system="metric"):
        """Floats in kg, degC, share 0-1, kJ; kind also a couverture. Returns the sentence. Raises StudentError as
        seed_mass does."""
        seed = float(tempering.seed_mass.floats(batch, melted_at, seed_at, target, kind, melted_share, bowl_loss))
        share = 100 * seed / batch
        right = next(limit for limit in (60, 120, 240, 480, 5000) if share < 0.95 * limit)
        seeds = np.linspace(0, right / 100 * batch, 200)
        latent = chocolate.latent_heat(kind)
        ends = tempering.ends_at(batch, melted_at, seeds, seed_at, latent, melted_share, bowl_loss)
        possible = ends >= max(seed_at, tempering.melts_down_to(kind))
        low, high = chocolate.band_floats(kind)[2]
        self._curve.set_data(100 * seeds[possible] / batch, ends[possible])
        self._point.set_data([share], [target])
        self._drop.set_data([0, share, share], [target, target, 0])
        self._band.set(y=low, height=high - low)
        self.axes.set_xlim(0, right)
        if self.axes.get_ylabel() != (label := f"temperature of the bowl, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_ylabel(label)
            self.temperature_axis(self.axes.yaxis, system)
        left = 100 * tempering.crystal_share.floats(batch, seed, melted_share)
        low, high = _HABIT
        habit = "inside" if low <= share <= high else "below" if share < low else "above"
        concerns = tempering.seed_concerns(batch, melted_at, seed, target, kind, melted_share)
        self._point.set_markeredgecolor(LOST if concerns else INK)
        self.alt = (
            f"Needs {self.write(1000 * seed, 'g') if system == 'metric' else us_mass(1000 * seed)} of seed: {share:.0f} % of the melt, "
            f"{100 * seed / (batch + seed):.0f} % of the whole bowl. That is {habit} the habit of {_HABIT_TEXT} of the "
            f"melt. About {left:.1f} % of the fat stays as seed crystals. {' '.join(('Mind:', *concerns)) if concerns else ''}"
        ).strip()
        return self.alt

    def result_of_guess(self, guess, *, batch, melted_at, seed_at, target, melted_share, kind, system):
        """A guess in g, at the seed the balance asks for; a bowl too cold to melt it is not given a temperature."""
        seed = float(tempering.seed_mass.floats(batch, melted_at, seed_at, target, kind, melted_share, 0.0))
        latent, least = chocolate.latent_heat(kind), max(seed_at, tempering.melts_down_to(kind))
        end = float(tempering.ends_at(batch, melted_at, guess / 1000, seed_at, latent, melted_share, 0.0))
        if end < least:
            then = f"The bowl would fall below {self.write(least, 'degC', system)}, and the seed would no longer melt."
        else:
            then = f"The bowl would stand at {self.write(end, 'degC', system)}."
        return Met(1000 * seed, then, ((guess / 10 / batch, end),))


class ProbeLog(Picture):
    """A bowl's temperature over time against the bands of its kind."""

    _NAMES = ("melt out", "cool", "work")
    _HATCHES = ("..", "\\\\", "//")

    def __init__(self):
        super().__init__(height=4.8)
        axes = self.axes
        axes.set_title("The bowl's log against the bands", fontsize=14, loc="left")
        axes.set_xlabel("time, minutes")
        axes.set_ylabel("temperature, °F or °C")
        self._bands, self._labels = [], []
        for name, hatch, colour in zip(self._NAMES, self._HATCHES, ("#f3b9a8", "#b9d4ef", BAND), strict=True):
            self._bands.append(
                axes.axhspan(30, 31, facecolor=colour, edgecolor="#777777", hatch=hatch, alpha=0.55, lw=0)
            )
            self._labels.append(
                axes.text(1.01, 30, name, transform=axes.get_yaxis_transform(), va="center", fontsize=11, color=INK)
            )
        self._lost = axes.axhline(chocolate.TEMPER_LOST, color=LOST, lw=1.6, ls=(0, (6, 3)))
        self._lost_label = axes.text(
            1.01,
            chocolate.TEMPER_LOST,
            "temper lost",
            transform=axes.get_yaxis_transform(),
            va="center",
            fontsize=11,
            color=LOST,
        )
        (self._curve,) = axes.plot([], [], color=LINE, lw=2, marker="o", ms=4, label="bowl")
        (self._out,) = axes.plot([], [], color="#666666", lw=1.6, ls="-.", label="probe out of the bowl")
        (self._over,) = axes.plot([], [], "X", ms=10, mfc="white", mec=LOST, mew=1.8, label="too warm for temper")
        (self._seeded,) = axes.plot([], [], color=INK, lw=1.4, ls=":", label="seed goes in")
        axes.legend(loc="upper right", fontsize=11)

    def update(self, *, log, review, system="metric"):
        """log: as read_log gives it; review: probelog.Review. Returns the sentence."""
        minutes, degrees = log["minutes"], log["degC"]
        bands = chocolate.wide_band_floats(review.kind)
        for (low, high), patch, label in zip(bands, self._bands, self._labels, strict=True):
            patch.set(y=low, height=high - low)
            label.set_y((low + high) / 2)
        lost = chocolate.crystals_stand_to(review.kind)[1]
        self._lost.set_ydata([lost, lost])
        self._lost_label.set_y(lost)
        judged = minutes <= review.ends
        self._curve.set_data(minutes[judged], degrees[judged])
        out = minutes >= review.ends if not judged.all() else np.zeros(len(minutes), dtype=bool)
        self._out.set_data(minutes[out], degrees[out])
        at_work = np.inf if review.at_work is None else review.at_work
        over = (degrees > lost) & (minutes > at_work) & judged
        self._over.set_data(minutes[over], degrees[over])
        seeded = [] if review.seeded_at is None else [review.seeded_at] * 2
        self._seeded.set_data(seeded, [0, 100][: len(seeded)])
        low = min(degrees.min(), bands[1][0]) - 2
        high = max(degrees.max(), bands[0][1]) + 2
        self.axes.set(xlim=(minutes[0], minutes[-1] + 0.01), ylim=(low, high))
        if self.axes.get_ylabel() != (label := f"temperature, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_ylabel(label)
            self.temperature_axis(self.axes.yaxis, system)
        top, last = (self.write(x, "degC", system) for x in (review.highest, review.last))
        self.alt = (
            f"{review.verdict[0].upper()}{review.verdict[1:]}: {len(minutes)} readings over {minutes[-1]:.0f} minutes, "
            f"highest {top}, last {last}."
        )
        return self.alt


class HoldPath(Picture):
    """A tempered bowl that is left alone: how its temperature falls, and when it leaves the working band."""

    MINUTES = 60

    def __init__(self):
        super().__init__()
        axes = self.axes
        axes.set_title("A tempered bowl left alone", fontsize=14, loc="left")
        axes.set_xlabel("time, minutes")
        axes.set_ylabel("temperature of the bowl, °F or °C")
        self._band = axes.axhspan(31, 32, facecolor=BAND, alpha=0.75, lw=0, label="working band")
        self._lost = axes.axhline(chocolate.TEMPER_LOST, color=LOST, lw=1.6, ls=(0, (6, 3)), label="temper lost above")
        (self._curve,) = axes.plot([], [], color=LINE, lw=2.5, label="bowl")
        (self._drop,) = axes.plot([], [], color=INK, lw=1.2, ls="--")
        (self._point,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="leaves the band")
        axes.legend(loc="upper right", frameon=True, fontsize=11)
        axes.set(xlim=(0, self.MINUTES), ylim=(20, 38))

    def update(self, *, start, room, halving, kind="dark", system="metric"):
        """Floats in degC and minutes. Returns the sentence; temperature alone, so it says nothing of crystals."""
        minutes = np.linspace(0, self.MINUTES, 241)
        degrees = room + (start - room) * 0.5 ** (minutes / halving)
        low, high = chocolate.band_floats(kind)[2]
        lost = chocolate.crystals_stand_to(kind)[1]
        self._curve.set_data(minutes, degrees)
        self._band.set(y=low, height=high - low)
        self._lost.set_ydata([lost, lost])
        leaves = cooling.time_to_cool.floats(start, low, room, halving) if room < low < start else None
        seen = leaves is not None and leaves <= self.MINUTES
        self._point.set_data([leaves] if seen else [], [low] if seen else [])
        self._drop.set_data([leaves] * 2 if seen else [], [0, low] if seen else [])
        if self.axes.get_ylabel() != (label := f"temperature of the bowl, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_ylabel(label)
            self.temperature_axis(self.axes.yaxis, system)
        self.alt = self._says((start, room, halving), (low, high), lost, system)
        return self.alt

    def result_of_guess(self, guess, *, start, room, halving, kind, system):
        """A guess in minutes, on the bowl's line at its time."""
        leaves = cooling.time_to_cool.floats(start, chocolate.band_floats(kind)[2][0], room, halving)
        then = room + (start - room) * 0.5 ** (guess / halving)
        return Met(leaves, f"After that time it would stand at {self.write(then, 'degC', system)}.", ((guess, then),))

    def _says(self, bowl, band, lost, system):
        start, room, halving = bowl
        low, high = band
        at, bottom, top, limit, around = (self.write(x, "degC", system) for x in (start, low, high, lost, room))
        if start <= low:
            return f"At {at} it is no warmer than the cold end of its band, {bottom}: warm it half a degree at a time, and smear."
        if start > lost:
            return (
                f"At {at} it is above {limit}: its crystals melt. Falling brings the temperature back, not the crystals. "
                "Seed it again, and smear."
            )
        if room >= low:
            return f"A room at {around} never takes it below the working band, {bottom} to {top}. It still thickens: smear."
        whole = _in_minutes(cooling.time_to_cool.floats(start, low, room, halving))
        leaves = f"after {whole} it stands at {bottom}, the cold end of the working band"
        if start <= high:
            return f"From {at}, left alone, {leaves}. Read it sooner than that, and warm it half a degree."
        above = _in_minutes(cooling.time_to_cool.floats(start, high, room, halving))
        return f"At {at} it is above the working band: smear first. Left alone, it comes to {top} after {above}, and {leaves}."


def _in_minutes(minutes):
    """Cut down, never up: a bowl is looked at too early rather than too late."""
    if minutes < 1:
        return "less than a minute"
    return f"{int(minutes)} minute{'s' if int(minutes) > 1 else ''}"
