"""Figures of lesson 01: a formula scaled as the scale shows it, and what a gram too much means for a part."""

from matplotlib.ticker import MaxNLocator

from pastrylab.ground.units import Q, Quantity, show
from pastrylab.page.guess import Met
from pastrylab.page.picture import BAND, HABIT, INK, LINE, Picture
from pastrylab.trade.formula import Formula
from pastrylab.trade.weighing import as_shown, error_share, smallest_weighing, us_mass
from pastrylab.trade.yields import purchase, yield_after

# The Larkmoor Teaching Kitchen's piping ganache, invented.
GANACHE = Formula(
    {
        "dark couverture 64 %": "500 g",
        "heavy cream 36 %": "300 g",
        "butter unsalted": "50 g",
        "honey": "40 g",
        "salt": "3 g",
    }
)
_FIRST = ("\nruns out first", ", runs out first")
_ON_WHITE = {"facecolor": "white", "alpha": 0.8, "lw": 0, "pad": 1}  # a label that a line runs through
_LENGTHS = (100, 250, 800, 2000, 4000)  # g
_NOTHING = 0.05  # g left of an ingredient: it has run out as well
_SHORT = {"dark couverture 64 %": "couverture", "heavy cream 36 %": "cream", "butter unsalted": "butter"}


def _per_gram(system):
    """What a gram is in the unit the axis shows."""
    return 1.0 if system == "metric" else float(Q(1, "g").m_as("oz"))


def _listed(names):
    """ "cream", "cream and butter", "couverture, cream and butter"."""
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _percent(share):
    """A share as a page writes it: 0.4 %, 3.4 %, 12.5 %."""
    return show(Q(100 * share, "percent"), 3 if share >= 0.1 else 2)


class ScaledFormula(Picture):
    """One bar an ingredient, in grams as the scale shows them; what the shelf holds behind, what runs out first marked."""

    guess_word_above = False  # there stand the words of the bar

    def __init__(self):
        super().__init__(height=4.2)
        axes = self.axes
        axes.set_title("Weigh this", fontsize=14, loc="left")
        names = list(GANACHE.grams)
        rows = range(len(names))
        axes.set_yticks(rows, [_SHORT.get(name, name) for name in names], fontsize=12)
        axes.invert_yaxis()
        axes.xaxis.set_major_locator(MaxNLocator(6, prune="upper"))
        self._shelf = axes.barh(rows, 0, 0.8, fc="white", ec="#777777", ls="--", lw=1.3, label="on the shelf")
        self._need = axes.barh(rows, 0, 0.5, fc=LINE, ec=INK, lw=1, label="weigh")
        self._words = [axes.text(0, row, "", va="center", fontsize=12, color=INK) for row in rows]
        self._legend = axes.legend(loc="lower right", frameon=True, fontsize=11)

    def update(self, *, step, couverture=0, cream=0, butter=0, pieces=None, piece=None, loss=0.0, system="metric"):
        """Scaled to the shelf, or where pieces are given to so many pieces of a mass, with a share lost on the way.

        Masses in g, pieces a count, loss 0-1. Returns the sentence. Raises StudentError as Formula does.
        """
        held = dict(zip(GANACHE.grams, (couverture, cream, butter), strict=False)) if pieces is None else {}
        if held:
            short = GANACHE.scarcest({name: Q(grams, "g") for name, grams in held.items()})
            scaled = GANACHE.scaled(factor=short.factor)
        else:
            short = None
            scaled = GANACHE.scaled(total=purchase(pieces * Q(piece, "g"), yield_after(trim=loss)))
        shown = as_shown(scaled, step)
        left = {name: mass.m_as("g") for name, mass in short.left.items()} if short else {}
        gone = [name for name, grams in left.items() if grams < _NOTHING]
        self._draw(scaled, shown, held, gone, system)
        times, made = scaled.total_grams / GANACHE.total_grams, _mass(scaled.total_grams, system)
        if short:
            stays = [f"{_mass(grams, system)} of {_SHORT[name]}" for name, grams in left.items() if name not in gone]
            start = (
                f"The {_listed([_SHORT[name] for name in gone])} {'runs out first' if len(gone) == 1 else 'run out together'}: the shelf makes "
                f"{times:.2f} times the formula, {made}. "
                + (
                    f"{_listed(stays)} stay{'s' if len(stays) == 1 else ''} behind."
                    if stays
                    else "Nothing stays behind."
                )
            )
        else:
            start = f"{pieces:.0f} pieces need {made} of ganache, {times:.2f} times the formula."
        self.alt = f"{start} {_off_the_scale(scaled, shown, step)}"
        return self.alt

    def result_of_guess(self, guess, *, couverture, cream, butter, system, **_scale):
        """A guess in g, at what the shelf makes of what lies on it."""
        held = dict(zip(GANACHE.grams, (couverture, cream, butter), strict=False))
        short = GANACHE.scarcest({name: Q(grams, "g") for name, grams in held.items()})
        made = GANACHE.scaled(factor=short.factor).total_grams
        row, name = next((row, one) for row, one in enumerate(GANACHE.grams) if one == short.ingredient)
        takes = guess * GANACHE.grams[name] / GANACHE.total_grams
        spare = held[name] - takes
        if spare < -_NOTHING:
            then = f"It would take {_mass(takes, system)} of {_SHORT[name]}, and {_mass(held[name], system)} lie there."
        else:
            then = f"It would leave {_mass(spare, system)} of {_SHORT[name]} unused." if spare > _NOTHING else ""
        return Met(made, then, ((takes * _per_gram(system), row + 0.5),))

    def _draw(self, scaled, shown, held, gone, system):
        unit, percents = _per_gram(system), scaled.percents()
        longest = max([*scaled.grams.values(), *held.values()])
        # A few fixed lengths of the axis: were it cut to the longest bar, no bar would ever move.
        right = unit * next((limit for limit in ((3000,) if held else _LENGTHS) if longest <= limit), 1.2 * longest)
        for (name, grams), need, shelf, words in zip(
            scaled.grams.items(), self._need, self._shelf, self._words, strict=True
        ):
            need.set_width((shown[name] or grams) * unit)
            shelf.set_width(held.get(name, 0) * unit)
            first = name in gone
            need.set(facecolor=BAND if first else LINE, hatch="//" if first else "")
            words.set_x(max(grams, held.get(name, 0)) * unit + 0.01 * right)
            broken = self.narrow and system == "US"  # two masses and a share are longer than a narrow page
            parts = [_on_the_scale(shown[name], system), _percent(percents[name])]
            words.set_text((",\n" if broken else ", ").join(parts) + _FIRST[broken] * first)
        self.axes.set_xlim(0, 1.55 * right)
        for bar in self._shelf:
            bar.set_visible(bool(held))
        self._legend.set_visible(bool(held))
        self.axes.set_xlabel("mass, g" if system == "metric" else "mass, oz")


def _mass(grams, system):
    return show(Q(grams, "g"), 3) if system == "metric" else us_mass(grams)


def _on_the_scale(grams, system):
    """What the display shows, in grams, with the US mass beside it; words where it shows nothing."""
    if grams is None:
        return "too little for this scale"
    return f"{round(grams, 2):g} g" + ("" if system == "metric" else f", {us_mass(grams)}")


def _off_the_scale(scaled, shown, step):
    """The part that comes out worst on a scale with steps of `step` grams, in a sentence."""
    steps, unseen = show(Q(step, "g")), [name for name, grams in shown.items() if grams is None]
    if unseen:
        parts = _listed([f"{_SHORT.get(name, name)}, {show(Q(scaled.grams[name], 'g'), 2)}," for name in unseen])
        return f"The {parts} cannot be weighed on a scale that shows steps of {steps}: take a finer scale, or make a larger batch."
    off = {name: error_share.floats(shown[name] - grams, grams) for name, grams in scaled.grams.items()}
    name = max(off, key=lambda n: abs(off[n]))
    if abs(off[name]) < 0.0005:
        return f"On a scale that shows steps of {steps} every part comes out as the formula asks."
    more = "too much" if off[name] > 0 else "too little"
    return (
        f"On a scale that shows steps of {steps} the {_SHORT.get(name, name)} is furthest off: "
        f"{_percent(abs(off[name]))} {more}."
    )


class OneGramTooMuch(Picture):
    """The error of a part for one slip of the hand: a bar for each of three parts everybody knows, and for one's own."""

    guess_word_above = False  # there stand the words of the bar
    _KNOWN = (("gelatin", 4), ("butter", 120), ("couverture", 500))
    _MOST = 60  # % at the end of the axis: the gelatin stands there, and a bar that is longer says so

    def __init__(self):
        super().__init__(height=4.2)
        axes = self.axes
        axes.set_title("The same slip on four parts", fontsize=14, loc="left")
        axes.set(xlabel="error of the part, %", xlim=(0, self._MOST), ylim=(3.6, -0.6))
        axes.set_yticks(range(4), [*(name for name, _ in self._KNOWN), "your part"], fontsize=12)
        self._over = axes.axvspan(2, self._MOST, facecolor=HABIT, edgecolor="#9a9a9a", hatch="//", alpha=0.5, lw=0)
        self._over.set_label("more than you allow")
        self._bars = axes.barh(range(4), 0, 0.5, fc=LINE, ec=INK, lw=1)
        self._bars[3].set(facecolor=BAND, hatch="..")
        self._words = [axes.text(0, row, "", fontsize=11.5, color=INK, va="center", bbox=_ON_WHITE) for row in range(4)]
        axes.legend(loc="lower right", frameon=True, fontsize=11, framealpha=1)

    def result_of_guess(self, guess, *, off_by, system, **_part):
        """A guess in percent, at the smallest of the parts everybody knows; off_by in g."""
        name, grams = self._KNOWN[0]
        slip, part = _mass(off_by, system), _mass(grams, system)
        then = (
            f"{_percent(guess / 100)} of {part} is {_mass(guess / 100 * grams, system)}; you weighed {slip} too much."
        )
        return Met(100 * float(error_share.floats(off_by, grams)), then, ((guess, 0.38),))

    def update(self, *, off_by, part, allowed, step, system="metric"):
        """Floats in g; allowed a share 0-1. Returns the sentence. Raises StudentError as the functions of weighing do."""
        mine = float(error_share.floats(off_by, part))
        least = smallest_weighing.floats(step, allowed)
        self._over.set(x=100 * allowed, width=self._MOST)
        for row, grams in enumerate([*(grams for _, grams in self._KNOWN), part]):
            self._draw(row, grams, float(error_share.floats(off_by, grams)), grams < least * (1 - 1e-9), system)
        slip, on = _mass(off_by, system), _mass(part, system)
        fits = "inside" if mine <= allowed * (1 + 1e-9) else "more than"
        self.alt = (
            f"{slip} too much on {on} is {_percent(mine)}: {fits} the {_percent(allowed)} you allow. A scale that shows steps "
            f"of {show(Quantity(step, 'g'))} weighs to {_percent(allowed)} from {_mass(least, system)} up."
        )
        return self.alt

    def _draw(self, row, grams, error, too_small, system):
        bar, words = self._bars[row], self._words[row]
        bar.set_width(100 * error)
        said = f"{_percent(error)} of {_mass(grams, system)}"
        words.set_text(f"{said}\nscale too coarse" if too_small else said)
        inside = 100 * error > self._MOST / 2
        words.set(x=min(100 * error, self._MOST) + (-1 if inside else 1), ha="right" if inside else "left")
