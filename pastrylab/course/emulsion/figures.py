"""Figures of lesson 03: a ganache as water against fat with its phases, the warm liquid, and cream that cools."""

import math

import numpy as np
from matplotlib.patches import Rectangle

from pastrylab.logs import pan
from pastrylab.page.guess import Met
from pastrylab.page.picture import BAND, HABIT, INK, LINE, LOST, Picture
from pastrylab.trade import emulsion, mixing
from pastrylab.trade.formula import Formula
from pastrylab.trade.phases import phases

_FLUID, _FAT, _SOLID = "#b9d4ef", BAND, "#b08a6a"


class WaterAgainstFat(Picture):
    """Where a ganache lies between water and fat, and how its phases share the volume."""

    guess_word_at = 0.02  # above it stands the legend

    def __init__(self):
        super().__init__(width=7.6, height=4.6)
        if self.narrow:  # the plot above, the two columns below
            self.figure.set_figheight(5.4)
            grid = self.figure.add_gridspec(2, 2, height_ratios=(1.2, 1), width_ratios=(0.6, 1))
            places = (grid[0, :], grid[1, 0], grid[1, 1])
        else:
            places = tuple(self.figure.add_gridspec(1, 3, width_ratios=(2.9, 0.5, 1)))
        axes = self.axes
        axes.set_subplotspec(places[0])
        axes.set_title("Water against fat", fontsize=14, loc="left")
        axes.set_xlabel("water, % of the whole")
        axes.set_ylabel("fat, % of the whole")
        axes.set(xlim=(5, 45), ylim=(20, 55))
        self._card = axes.add_patch(
            Rectangle(
                (18, 28), 7, 12, facecolor=HABIT, edgecolor="#777777", hatch="//", alpha=0.6, label="card of the use"
            )
        )
        made = [phases(formula) for formula in emulsion.fillings().values()]
        axes.plot(
            [100 * one["water"] for one in made],
            [100 * one["fat"] for one in made],
            ls="none",
            marker="+",
            ms=10,
            mew=1.8,
            color=LINE,
            label="Larkmoor fillings",
        )
        (self._point,) = axes.plot([], [], "o", ms=12, mfc="white", mec=INK, mew=2.4, label="your ganache")
        axes.legend(loc="upper right", fontsize=11)
        self._draw_sugars(self.figure.add_subplot(places[1]))
        self._draw_phases(self.figure.add_subplot(places[2]))

    def _draw_sugars(self, sweet):
        sweet.set_title("Sugars", fontsize=14, loc="left")
        sweet.set(xlim=(0, 1), ylim=(0, 60), xticks=[])
        sweet.set_ylabel("% of the whole", fontsize=12)
        sweet.tick_params(labelsize=12)
        sweet.spines[["top", "right", "bottom"]].set_visible(False)
        self._sweet_card = sweet.add_patch(
            Rectangle((0.1, 22), 0.8, 16, facecolor=HABIT, edgecolor="#777777", hatch="//", alpha=0.6)
        )
        (self._sweet,) = sweet.plot([], [], "o", ms=12, mfc="white", mec=INK, mew=2.4, clip_on=False)

    def _draw_phases(self, bars):
        bars.set_title("By volume", fontsize=14, loc="left")
        bars.set(xlim=(0, 1), ylim=(0, 100), xticks=[])
        bars.set_ylabel("% of the volume", fontsize=12)
        bars.tick_params(labelsize=12)
        bars.spines[["top", "right", "bottom"]].set_visible(False)
        self._bars, self._words = [], []
        for colour, hatch in ((_FAT, ""), (_SOLID, "xx"), (_FLUID, "..")):
            (bar,) = bars.bar([0.3], [1], width=0.5, color=colour, edgecolor="#555555", hatch=hatch)
            self._bars.append(bar)
            self._words.append(
                bars.text(
                    0.3, 0, "", ha="center", va="center", fontsize=11, bbox={"fc": "white", "ec": "none", "pad": 1.5}
                )
            )
        for at, name, style in ((64, "random", "--"), (74, "closest", "-.")):
            bars.plot([0.02, 0.62], [at, at], color=LOST, lw=1.8, ls=style)
            bars.text(0.64, at, f"{name}{' ' if self.narrow else chr(10)}{at} %", color=LOST, fontsize=11, va="center")

    def update(
        self,
        *,
        chocolate,
        cream,
        butter,
        syrup=0,
        skim_milk=0,
        couverture="dark couverture 64 %",
        use="fill",
        system="metric",
    ):
        """Masses in g, floats. Returns the sentence. Raises StudentError as phases does."""
        formula = _ganache(couverture, chocolate, cream, butter, syrup, skim_milk)
        made, card = phases(formula), emulsion.targets(use)
        fat, fluid, solid = (100 * x for x in made.volume_shares)
        (left, right), (low, high) = (tuple(100 * x for x in card[name]) for name in ("water", "fat"))
        self._card.set(x=left, y=low, width=right - left, height=high - low)
        self._point.set_data([100 * made["water"]], [100 * made["fat"]])
        self.axes.set_xlim(5, max(45, 100 * made["water"] + 4))
        self.axes.set_ylim(min(20, 100 * made["fat"] - 4), max(55, 100 * made["fat"] + 4))
        self._fill_phases(fat, solid, fluid)
        sugars = 100 * made["sugars"]
        self._sweet_card.set(y=100 * card["sugars"][0], height=100 * (card["sugars"][1] - card["sugars"][0]))
        self._sweet.set_data([0.5], [min(sugars, 60)])
        self.alt = (
            f"{self.write(formula.total_grams, 'g', system)}: water {100 * made['water']:.1f} %, fat {100 * made['fat']:.1f} %, "
            f"sugars {sugars:.1f} %. {_card_and_ratio(formula, use)} Droplets and "
            f"particles are {100 * made.dispersed_share:.0f} % of the volume. {made.warning}"
        )
        return self.alt

    def result_of_guess(self, guess, *, couverture, system, use="", **grams):
        """A guess in percent, at the water of the whole; masses in g."""
        formula = _ganache(couverture, **grams)
        whole, share = formula.total_grams, float(phases(formula)["water"])
        would, is_there = (self.write(whole * part, "g", system) for part in (guess / 100, share))
        then = f"{guess:g} % of {self.write(whole, 'g', system)} would be {would} of water; there are {is_there} in it."
        return Met(100 * share, then, ((guess, None),))

    def _fill_phases(self, fat, solid, fluid):
        """Percent by volume."""
        bottom = 0.0
        for bar, word, part, name in zip(
            self._bars, self._words, (fat, solid, fluid), ("fat", "solids", "watery"), strict=True
        ):
            bar.set(y=bottom, height=part)
            word.set_y(bottom + part / 2)
            word.set_text(f"{name}\n{part:.0f} %")
            bottom += part


def _card_and_ratio(formula, use):
    """What the card and the ratio find, in sentences; where they disagree, which of them leads."""
    on_card, ratio = emulsion.card_finding(formula, use), emulsion.ratio_finding(formula, use)
    apart = ratio.word == "inside" if on_card.out else on_card.fits == use and ratio.word != "inside"
    leads = " Card and ratio disagree: the card leads." if apart else ""
    return f"{on_card.sentence} {ratio.sentence}{leads}"


def _ganache(couverture, chocolate, cream, butter, syrup=0, skim_milk=0):
    """The formula of such a ganache, masses in g."""
    rest = {"heavy cream": cream, "invert syrup": syrup, "butter": butter, "skim milk": skim_milk}
    return Formula.of_grams({couverture: chocolate, **rest})


class WarmLiquid(Picture):
    """Where a bowl ends for each temperature of the liquid, and how warm the liquid must be."""

    def __init__(self):
        super().__init__()
        axes = self.axes
        axes.set_title("Where the ganache ends up", fontsize=14, loc="left")
        self._alive = axes.axhspan(
            *mixing.temper_kept("white"),
            facecolor=BAND,
            edgecolor="#9a8a50",
            hatch="//",
            alpha=0.5,
            lw=0,
            label="hot drops: no crystal survives",
        )
        (self._curve,) = axes.plot([], [], color=LINE, lw=2.5, label="ganache, by heat balance")
        (self._mass,) = axes.plot([], [], color="#666666", lw=1.8, ls=":", label="by mass alone")
        (self._drop,) = axes.plot([], [], color=INK, lw=1.2, ls="--")
        (self._point,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="the liquid you need")
        self._legend = axes.legend(loc="upper left", fontsize=11)
        self._system = None
        axes.set(xlabel="temperature of the liquid as it goes in, °F", ylabel="temperature of the ganache, °F")
        axes.set(xlim=(0, 200), ylim=(0, 200))  # labels as wide as degF ever needs, so that no later one is cut off
        self.settle()

    def update(
        self, *, chocolate, chocolate_at, liquid, target, of="heavy cream", into=("tempered", "dark"), system="metric"
    ):
        """Masses in g, temperatures in degC, floats; into: state and kind of the chocolate. Returns the sentence. Raises StudentError as liquid_temperature does."""
        (state, kind), chocolate, liquid = into, chocolate / 1000, liquid / 1000
        needed = float(mixing.liquid_temperature.floats(chocolate, chocolate_at, liquid, target, of, state, kind, 0.0))
        right = max(100.0 if state == "drops" else 45.0, 5 * math.ceil((needed + 4) / 5))
        left = min(20.0, 5 * math.floor((needed - 4) / 5))
        # Straight but for the bend where drops melt, so a few points draw it whole.
        at = np.linspace(left, right, 2 if state == "tempered" else 33)
        ends = [
            mixing.mixed.floats(chocolate, chocolate_at, liquid, t, of, state, kind, 0.0).temperature.m_as("degC")
            for t in at
        ]
        weighed = mixing.by_mass_alone(chocolate, chocolate_at, liquid, at)
        self._curve.set_data(at, ends)
        self._mass.set_data(at, weighed)
        self._point.set_data([needed], [target])
        self._drop.set_data([left, needed, needed], [target, target, 0])
        low, high = min(min(ends), weighed.min(), 26), max(max(ends), weighed.max(), 36)
        self.axes.set(xlim=(left, right), ylim=(5 * math.floor((low - 1) / 5), 5 * math.ceil((high + 1) / 5)))
        self._write_axes(system)
        stands = mixing.temper_kept(kind)
        self._alive.set(y=stands[0], height=stands[1] - stands[0], visible=state == "tempered")
        ends = " to ".join(self.write(end, "degC", system) for end in stands)
        self._legend.get_texts()[0].set_text(
            f"crystals survive: {ends}" if state == "tempered" else "hot drops: no crystal survives"
        )
        alone = mixing.liquid_by_mass_alone(chocolate, chocolate_at, liquid, target)
        other = self._by_mass(alone, needed, state, system)
        self.alt = (
            f"The liquid must go in at {self.write(needed, 'degC', system)} for the ganache to end at "
            f"{self.write(target, 'degC', system)}. {other} {mixing.advice(target, needed, state, kind)}"
        )
        return self.alt

    def _write_axes(self, system):
        if self._system != system:
            self._system, unit = system, "°C" if system == "metric" else "°F"
            self.axes.set_xlabel(f"temperature of the liquid as it goes in, {unit}")
            self.axes.set_ylabel(f"temperature of the ganache, {unit}")
            for axis in (self.axes.xaxis, self.axes.yaxis):
                self.temperature_axis(axis, system)

    def _by_mass(self, alone, needed, state, system):
        """What mass alone would say, in a sentence; both in degC."""
        weighs = self.write(alone, "degC", system)
        if weighs == self.write(needed, "degC", system):
            return "By mass alone it would be the same: here the chocolate has no heat to take up."
        why = "the drops melt as well" if state == "drops" else "a gram of liquid and one of chocolate hold unlike heat"
        return f"By mass alone it would be {weighs}, which is wrong: {why}."


class CreamCooling(Picture):
    """A log of cooling cream against the two limits."""

    def __init__(self):
        super().__init__(height=4.6)
        axes = self.axes
        axes.set_title("Cream that cools, and the two limits", fontsize=14, loc="left")
        axes.set_xlabel("time, minutes")
        self._gates = []
        for limit, name, style in ((pan.MIDDLE, "by now at 21 °C", "--"), (pan.COLD, "by now at 5 °C", "-.")):
            (gate,) = axes.plot([], [], color=LOST, lw=2.4, ls=style, marker="v", ms=9, markevery=[-1], label=name)
            self._gates.append((gate, limit))
        self._hot = axes.axhline(pan.HOT, color="#666666", lw=1.4, ls=":", label="the clock starts: 57 °C")
        (self._curve,) = axes.plot([], [], color=LINE, lw=2, marker="o", ms=4, label="the probe")
        self._legend = axes.legend(loc="upper right", fontsize=11)
        self._system = None
        axes.set(ylabel="temperature, °F", xlim=(0, 200), ylim=(0, 200))
        self.settle()

    def update(self, *, log, found, system="metric"):
        """log: as read_log gives it; found: a cream.Cooling. Returns the sentence."""
        minutes, degrees = log["minutes"], log["degC"]
        self._curve.set_data(minutes, degrees)
        for (gate, limit), stage in zip(self._gates, found.stages, strict=True):
            gate.set_data([found.started, found.started + stage.allowed], [limit, limit])
        self.axes.set(
            xlim=(0, max(minutes[-1], found.started + pan.WHOLE_LIMIT) + 15),
            ylim=(min(0, degrees.min() - 2), max(degrees.max(), 60) + 4),
        )
        if self._system != system:
            self._system, metric = system, system == "metric"
            self.axes.set_ylabel(f"temperature, {'°C' if metric else '°F'}")
            self.temperature_axis(self.axes.yaxis, system, step=10, us_step=20)
            for text, (at, before) in zip(
                self._legend.get_texts(),
                ((pan.MIDDLE, "no later at "), (pan.COLD, "no later at "), (pan.HOT, "the clock starts: ")),
                strict=False,
            ):
                text.set_text(f"{before}{self.write(at, 'degC', system)}")
        verdict = found.verdict[0].upper() + found.verdict[1:]
        self.alt = f"{verdict}. {found.sentence}"
        return self.alt
