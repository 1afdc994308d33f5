"""The weigh-sheet of lesson 01: one's own cups, how far they lie apart, kept sheet by sheet and drawn beside the table."""

import textwrap

import ipywidgets as widgets
from matplotlib.ticker import FuncFormatter, MaxNLocator

from pastrylab.ground import kitchen
from pastrylab.ground.units import Quantity, StudentError, both
from pastrylab.page import keeper
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, button, field
from pastrylab.page.form import Form
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.parts import part, picture_html
from pastrylab.page.picture import BAND, INK, LINE, LOST, Picture
from pastrylab.page.pictured import Pictured
from pastrylab.trade.pantry import facts, mass_of
from pastrylab.trade.weighing import error_share, grams_of, spread

_SHELF = "weigh-sheets"
_CUPS = ("cocoa powder", "granulated sugar", "powdered sugar", "all-purpose flour", "heavy cream 36 %", "honey")
_OUNCE = float(Quantity(1, "oz").m_as("g"))
_LEGEND = (
    "Dots: the cups you weighed, a row a sheet. Yellow bar: from the lightest to the heaviest. Upright stroke: their mean. "
    "Dashed red line: the table. Above are the sheets you kept of this ingredient, the latest last."
)


class CupsApart(Picture):
    """Weighings of one ingredient by the cup, sheet by sheet, against the table's cup."""

    ROWS = 6

    def __init__(self):
        super().__init__(height=4.0)
        axes = self.axes
        axes.set_xlabel("one cup: g, below oz")
        axes.set_title("How far my cups lie apart", fontsize=14, loc="left")
        self._spans = axes.barh(range(self.ROWS), [0.0] * self.ROWS, height=0.5, color=BAND, alpha=0.8)
        (self._dots,) = axes.plot([], [], "o", ms=7, mfc="white", mec=LINE, mew=1.8)
        (self._means,) = axes.plot([], [], "|", ms=24, mew=2.4, color=INK)
        self._table = axes.axvline(1, color=LOST, lw=1.8, ls=(0, (6, 3)))
        axes.xaxis.set_major_locator(MaxNLocator(6))
        axes.xaxis.set_major_formatter(FuncFormatter(lambda grams, _: f"{grams:g}\n{grams / _OUNCE:.1f}"))
        axes.set_yticks(range(self.ROWS), [self._label("a sheet of 27 Nov, dipped")] * self.ROWS)
        axes.tick_params(axis="y", labelsize=11, length=0)
        self.settle()  # with room for a long name

    def _label(self, name):
        """A sheet's name beside its row, in lines on a narrow page; a dollar sign would begin a formula."""
        short = textwrap.shorten(name, 26, placeholder="…").replace("$", r"\$")
        return textwrap.fill(short, 13) if self.narrow else short

    def update(self, *, sheets, table, what, system="metric"):
        """sheets: (name, grams of each cup), this one last; table: grams by the table; what: of which ingredient."""
        shown = sheets[-self.ROWS :]
        for row, bar in enumerate(self._spans):
            low, high = (min(shown[row][1]), max(shown[row][1])) if row < len(shown) else (0, 0)
            bar.set(x=low, width=high - low, visible=row < len(shown))
        points = [(grams, row) for row, (_, cups) in enumerate(shown) for grams in cups]
        self._dots.set_data(*zip(*points, strict=True))
        self._means.set_data([sum(cups) / len(cups) for _, cups in shown], range(len(shown)))
        self._table.set_xdata([table, table])
        every = [grams for grams, _ in points] + [table]
        edge = 0.08 * (max(every) - min(every)) + 1
        names = [self._label(name) for name, _ in shown]
        self.axes.set_yticks(range(len(shown)), names)
        self.axes.set(xlim=(min(every) - edge, max(every) + edge), ylim=(len(shown) - 0.4, -0.6))
        name, cups = shown[-1]
        low, high, by_table = (both(Quantity(grams, "g"), 3) for grams in (min(cups), max(cups), table))
        before = len(shown) - 1
        others = (
            f" Above {'it stands the sheet' if before == 1 else f'it stand {before} sheets'} kept before."
            if before
            else ""
        )
        self.alt = f"{len(cups)} cups of {what} from {low} to {high}; the table says {by_table}.{others}"
        self.renew()
        return self.alt


class CupsBench(Form):
    """Weighings of one cup, filled again and again: how far they lie apart, what the table says, and the sheets kept."""

    def __init__(self):
        wide = field()
        self.what = widgets.Dropdown(options=_CUPS, description="A US cup of", **wide)
        self.paste = TypedArea(description="One weighing a line", placeholder="82 g\n91 g\n3.3 oz", rows=5, **wide)
        self.read = button("Compare my cups", "How far do they lie apart?")
        self.figure = CupsApart()
        self.picture = Pictured(self.figure, lambda: guarded(self.said)(self.compare)())
        self.legend = widgets.HTML(layout=WIDE)
        self.keeper = Keeper(_SHELF, "weigh-sheet", self._sheet, self._opened, [self.paste])
        below = [self.picture, self.legend, self.keeper]
        super().__init__([[self.what], [self.paste]], self.read, self.compare, below)

    def compare(self):
        """Say and draw the spread of the weighings typed, beside the household weight of the table."""
        self.picture.value = self.legend.value = ""
        mine, table = spread(self.paste.value), mass_of("1 cup", self.what.value)
        off = error_share(mine.mean - table, table)
        self.say(
            f"{mine.count} cups of {self.what.value}: {both(mine.low, 3)} to {both(mine.high, 3)}, mean {both(mine.mean, 3)}. "
            f"From lowest to highest is {100 * mine.share:.0f} % of the mean. The table says {both(table, 3)} "
            f"({facts()[self.what.value]['density_form']}): your mean is {100 * abs(off):.0f} % "
            f"{'above' if off > 0 else 'below'} it.",
            "say",
        )
        cups = grams_of(self.paste.value)
        self.figure.update(sheets=[*self._kept(), ("this sheet", cups)], table=table.m_as("g"), what=self.what.value)
        self.picture.value, self.legend.value = picture_html(self.figure), part("legend", text=_LEGEND)

    def _sheet(self):
        """The Thing to keep: the weighings as they were typed. StudentError where they are none."""
        spread(self.paste.value)
        return Thing(self.paste.value, {"what": self.what.value})

    def _opened(self, _name, thing):
        what = thing.settings.get("what", "")
        if what in _CUPS:
            self.what.value = what
        self.paste.value = thing.text
        self.act()

    def _kept(self):
        """(name, grams) of the sheets kept of this ingredient, the latest last; one that cannot be read is passed over."""
        found, here = [], Thing(self.paste.value, {"what": self.what.value})
        for name, _day in sorted(kitchen.kept(_SHELF).items(), key=lambda one: one[1]):
            try:
                thing = keeper.get(_SHELF, name)
                if thing.settings.get("what") == self.what.value and thing != here:
                    found.append((name, grams_of(thing.text)))
            except StudentError:
                continue
        return found


def cups_bench():
    """Your own cups, weighed."""
    return CupsBench()
