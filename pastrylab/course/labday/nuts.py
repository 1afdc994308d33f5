"""One machine and three flavours: what an order of them costs in cleaning, and whose nuts get where."""

from itertools import pairwise

from matplotlib.ticker import FuncFormatter, MultipleLocator

from pastrylab.page.picture import HABIT, INK, LOST, Picture
from pastrylab.trade.orders import larkmoor
from pastrylab.trade.orders.day import left_behind
from pastrylab.trade.planning import Lab, Step
from pastrylab.trade.planning.machines import between
from pastrylab.trade.planning.steps import clock, span

FLAVOURS = ("hazelnut praline", "dark ganache", "raspberry ganache")
ORDERS = tuple(f"{a}, then {b}, then {c}" for a in FLAVOURS for b in FLAVOURS for c in FLAVOURS if len({a, b, c}) == 3)
DONE = {"wash where an allergen has to go": True, "wipe only": False}
_BEGINS = 8 * 60
_LOOKS = {
    "hazelnut praline": ("#9ec5e8", "//"),
    "dark ganache": ("#f2c14e", ""),
    "raspberry ganache": ("#e5a7a0", "\\\\"),
}


class OneMachine(Picture):
    """A machine's morning: three flavours in an order, the cleaning between, and where nuts come along."""

    def __init__(self):
        super().__init__(height=4.2)
        axes = self.axes
        axes.set_title("One machine, three flavours", fontsize=14, loc="left")
        axes.set(xlim=(_BEGINS - 5, _BEGINS + 365), ylim=(3.6, -0.6), xlabel="time of day, hours and minutes")
        axes.set_yticks(range(4), [*(name.replace(" ", "\n") for name in FLAVOURS), "cleaning"])
        axes.xaxis.set_major_locator(MultipleLocator(60))
        axes.xaxis.set_major_formatter(FuncFormatter(lambda at, _: clock(at)))
        self._bars = {
            name: axes.barh(
                row, 1, left=_BEGINS, height=0.7, facecolor=_LOOKS[name][0], hatch=_LOOKS[name][1], edgecolor=INK
            )[0]
            for row, name in enumerate(FLAVOURS)
        }
        self._clean = axes.barh([3, 3], [1, 1], left=_BEGINS, height=0.7, facecolor=HABIT, hatch="xx", edgecolor=INK)
        self._words = {
            name: axes.text(0, row, "", fontsize=11, color=LOST, va="center") for row, name in enumerate(FLAVOURS)
        }

    def update(self, *, each, kind, allergen, order, between_two, system="metric"):
        """Minutes of casting a flavour, of wiping for another couverture and of washing; order: one of ORDERS; between_two:
        one of DONE. Returns the sentence."""
        names, at, washed = order.split(", then "), float(_BEGINS), DONE[between_two]
        traces, cleaned = traces_of(names, washed), cleaning_of(names, kind, allergen, washed)
        for number, name in enumerate(names):
            if number:
                self._clean[number - 1].set(x=at, width=cleaned[number - 1], visible=bool(cleaned[number - 1]))
                at += cleaned[number - 1]
            self._bars[name].set(x=at, width=each)
            self._words[name].set(x=at + each + 6, text="nuts in it: on no label" if name in traces else "")
            at += each
        self.alt = self.says(names, cleaned, traces, at)
        return self.alt

    @staticmethod
    def says(names, cleaned, traces, end):
        """Minutes of cleaning and the end, and what goes where, in sentences."""
        minutes = f"{span(sum(cleaned))} of cleaning" if sum(cleaned) else "no cleaning"
        said = f"{', then '.join(names).capitalize()}: {minutes}, over at {clock(end)}."
        if traces:
            return (
                f"{said} Hazelnut gets into {' and '.join(traces)}: tree nuts that no label names. Nobody may eat these as "
                "free of nuts, and nothing that is done later takes them out."
            )
        if names[-1] == FLAVOURS[0]:
            return f"{said} Nothing runs after the nuts, so none get from this machine into a piece whose label does not name them."
        return (
            f"{said} The machine is taken apart and washed after the nuts. All hangs on that wash, in the middle of a "
            "morning; the planner does not rely on it, and puts nuts last in a machine's day."
        )


def traces_of(names, washed):
    """Flavours, in the order in which they run, that get the nuts of one before them: none where it is washed."""
    if washed:
        return []
    after = names[names.index(FLAVOURS[0]) + 1 :]
    return [name for name in after if "tree nuts" not in left_behind(larkmoor().flavours[name].allergens)]


def cleaning_of(names, kind, allergen, washed):
    """Minutes of cleaning between each two of a row of flavours."""
    lab = Lab(1, ((0, 1),), cleaning=int(kind), allergen_cleaning=int(allergen), last=frozenset())
    steps = [_step(name, washed) for name in names]
    return [between(one, then, lab) for one, then in pairwise(steps)]


def _step(name, washed):
    one = larkmoor().flavours[name]
    leaves = left_behind(one.allergens) if washed else frozenset()
    return Step(name, 1, kind=one.couverture, allergens=leaves)
