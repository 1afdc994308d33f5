"""Figure of lesson 03: an infusion weighed in, strained and topped up."""

from pastrylab.ground.units import Quantity
from pastrylab.page.picture import BAND, INK, Picture, end_of_axis
from pastrylab.trade import infusion

_LIQUID, _LEAVES, _WATER = "#b9d4ef", "#a3b18a", "#e8f1fa"
_ROWS = ("topped up", "strained", "weighed in")  # from below


class InfusionWeighed(Picture):
    """Three bars: the liquid weighed in, what comes through the sieve, and what it is topped up with."""

    def __init__(self):
        super().__init__(height=4.0)
        axes = self.axes
        axes.set_title("Where the cream went", fontsize=14, loc="left")
        axes.set(ylim=(-0.6, 2.6), yticks=range(3), yticklabels=_ROWS)
        self._bars = {}
        looks = {
            "cream": (_LIQUID, ""),
            "kept by the leaves": (_LEAVES, "xx"),
            "gone as steam": ("white", ".."),
            "water to add": (_WATER, "||"),
            "liquid to add": (BAND, "//"),
        }
        for name, (colour, hatch) in looks.items():
            rows = {"cream": (2, 1, 0), "kept by the leaves": (1,), "gone as steam": (1,)}.get(name, (0,))
            made = [
                axes.barh([row], [1], height=0.6, color=colour, edgecolor="#555555", hatch=hatch)[0] for row in rows
            ]
            made[0].set_label(name)
            self._bars[name] = made
        (self._span,) = axes.plot([], [], color=INK, lw=2.4, marker="|", ms=14, mew=2.4, label="by the kind's habit")
        self._words = [axes.text(0, row, "", ha="center", va="center", fontsize=12) for row in (2, 1, 0)]
        axes.legend(loc="upper center", bbox_to_anchor=(0.45, -0.2), ncol=3, fontsize=11, frameon=False)
        axes.set(xlim=(0, 500), xlabel="grams")
        self._system = None
        self.settle()

    def update(self, *, liquid, leaves, kept, evaporated, kind="tea leaves", top_up="heavy cream", system="metric"):
        """Masses in g, kept in g a gram, floats. Returns the sentence. Raises StudentError as infusion.infused does."""
        made = infusion.infused.floats(liquid, leaves, "heavy cream", kind, kept, evaporated, None, None, top_up)
        left, stays, water, more = (x.m_as("g") for x in (made.left, made.kept, made.water, made.more))
        low, high = infusion.kept_by(kind)
        ends = [max(0.0, liquid - evaporated - per_gram * leaves) for per_gram in (high, low)]
        self._lay(liquid, left, stays, evaporated, water, more, system)
        self._span.set_data([end * _unit(system) for end in ends], [1.38, 1.38])
        usual = "inside" if low <= kept <= high else "below" if kept < low else "above"
        self.alt = (
            f"Of {self.write(liquid, 'g', system)} of cream {self.write(left, 'g', system)} come through the sieve: "
            f"{kind} keep {self.write(stays, 'g', system)}, {self.write(evaporated, 'g', system)} went off as steam. "
            f"{kept:g} times their weight is {usual} their habit of {low:g} to {high:g}. Top up with "
            f"{self._said(water, 'water', system)}{self.write(more, 'g', system)} of {top_up}: fat "
            f"{100 * made.fat_topped:.1f} % as against {100 * made.fat_left:.1f} % strained{_alone(made, top_up)}."
        )
        return self.alt

    def _said(self, mass, what, system):
        return f"{self.write(mass, 'g', system)} of {what} and " if mass > 0 else ""

    def _lay(self, liquid, left, stays, evaporated, water, more, system):
        """Lay the pieces of each bar end to end; masses in g."""
        unit = _unit(system)
        for bar, width in zip(self._bars["cream"], (liquid, left, left), strict=True):
            bar.set(x=0, width=width * unit)
        for name, at, width in (
            ("kept by the leaves", left, stays),
            ("gone as steam", left + stays, evaporated),
            ("water to add", left, water),
            ("liquid to add", left + water, more),
        ):
            self._bars[name][0].set(x=at * unit, width=width * unit)
        for word, width in zip(self._words, (liquid, left, left), strict=True):
            word.set_x(width * unit / 2)
            word.set_text(self.write(width, "g", system) if width > 0.15 * liquid else "")
        self.axes.set_xlim(0, end_of_axis(1.02 * liquid * unit))
        if self._system != system:
            self._system = system
            self.axes.set_xlabel("grams" if system == "metric" else "ounces")


def _unit(system):
    """Grams to the axis."""
    return 1.0 if system == "metric" else float(Quantity(1.0, "g").m_as("oz"))


def _alone(made, top_up):
    """What topping up without water would give, in a clause; "" where no steam left."""
    return f"; with {top_up} alone {100 * made.fat_alone:.1f} %" if made.water.m_as("g") > 0 else ""
