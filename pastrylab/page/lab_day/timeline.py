"""A plan as a picture: a row for each pair or machine, a bar for each piece of work, on one of its days."""

from matplotlib.patches import Patch
from matplotlib.ticker import FuncFormatter, MultipleLocator

from pastrylab.page.picture import BAND, HABIT, INK, LOST, Picture
from pastrylab.trade.planning import by_team, chain, shared_out
from pastrylab.trade.planning.steps import DAY, clock, span

ROWS = ("pairs", "machines")
# Flavours differ by colour and by hatching; what is no flavour's work is plain.
_LOOKS = ((BAND, ""), ("#9ec5e8", "//"), ("#e5a7a0", "\\\\"), ("#a9d8b8", ".."), ("#cbb7e0", "xx"), (HABIT, "--"))
_SHORT = {"make the filling": "make", "cast": "cast", "fill": "fill", "cap": "cap", "turn out": "out", "clean": "clean"}


def rows_of(plan, by):
    """{name of a row: ((begins, ends, words, flavour, placed), ...)} of a plan, by "pairs" or by "machines".

    >>> from pastrylab.trade.planning import Lab, Step, make_plan
    >>> list(rows_of(make_plan([Step("cast", 30)], (), Lab(1, ((480, 510),))), "pairs"))
    ['pair 1']
    """
    if by == "pairs":
        return {
            f"pair {number}": tuple(_bar(task.begins, task.ends, task.what, task.placed) for task in tasks)
            for number, tasks in by_team(plan).items()
            if tasks
        }
    found = {}
    for one in plan.placed:
        if one.machine:
            row = found.setdefault(f"{one.step.machine} {one.machine}", [])
            if one.cleaning:
                row.append(_bar(one.cleaned_from, one.cleaned_from + one.cleaning, "clean", one))
            row.append(_bar(one.begins, one.ends, one.step.name, one))
    return {name: tuple(found[name]) for name in sorted(found)}


def _bar(begins, ends, words, placed):
    return begins, ends, words, flavour_of(placed.step), placed


def flavour_of(step):
    """The flavour a step belongs to, without its batch; "" for none.

    >>> from pastrylab.trade.planning import Step
    >>> flavour_of(Step("cast: dark, batch 1 of 2", 30, job="dark, batch 1 of 2"))
    'dark'
    """
    return step.job.split(", batch ")[0]


class Timeline(Picture):
    """One day of a plan, by pair or by machine; thick edges mark the chain that leaves no minute."""

    def __init__(self, height=5.4):
        super().__init__(height=height)
        self._drawn, self._key = [], None

    def update(self, *, plan, day=1, by="pairs"):
        """plan: a Plan; day: from 1; by: one of ROWS. Returns the sentence."""
        axes = self.axes
        opens, closes = plan.lab.hours[day - 1]
        for artist in self._drawn:
            artist.remove()
        self._drawn = []
        rows = {name: [b for b in bars if opens <= b[0] < closes] for name, bars in rows_of(plan, by).items()}
        looks = _looks(plan)
        tight = {link.placed.step.name for link in chain(plan)}
        for height, bars in enumerate(rows.values()):
            for begins, ends, words, flavour, placed in bars:
                self._draw(
                    height,
                    begins,
                    ends,
                    words,
                    ("white", "") if words.startswith("clean") else looks.get(flavour, ("white", "")),
                    placed.step.name in tight,
                )
        axes.set_yticks(range(len(rows)), list(rows))
        begins = min((b[0] for bars in rows.values() for b in bars), default=opens)
        axes.set(
            xlim=(begins // 30 * 30 - 5, closes + 5),
            ylim=(len(rows) - 0.4, -0.6),
            xlabel="time of day, hours and minutes",
        )
        axes.set_title(f"Day {day}, by {by[:-1]}", fontsize=14, loc="left")
        axes.xaxis.set_major_locator(MultipleLocator(30 if closes - begins <= 240 else 60))
        axes.xaxis.set_major_formatter(FuncFormatter(lambda at, _: clock(at % DAY)))
        self._legend(looks)
        self.renew()
        self.alt = _says(plan, rows, day, by)
        return self.alt

    def _draw(self, height, begins, ends, words, look, tight):
        colour, hatch = look
        (bar,) = self.axes.barh(
            height,
            ends - begins,
            left=begins,
            height=0.72,
            facecolor=colour,
            hatch=hatch,
            edgecolor=LOST if tight else INK,
            linewidth=2.4 if tight else 0.8,
        )
        self._drawn.append(bar)
        short = _SHORT.get(words.split(":")[0].split(" tempering")[0], words[:6])
        if ends - begins >= 15:
            box = {"facecolor": "white", "alpha": 0.85, "pad": 1, "linewidth": 0}
            label = self.axes.text((begins + ends) / 2, height, short, ha="center", va="center", fontsize=9, bbox=box)
            label.set_clip_on(True)
            self._drawn.append(label)

    def _legend(self, looks):
        if self._key is not None:
            self._key.remove()
        patches = [
            Patch(facecolor=c, hatch=h, edgecolor=INK, label=name or "no flavour") for name, (c, h) in looks.items()
        ]
        patches.append(Patch(facecolor="white", edgecolor=LOST, linewidth=2.4, label="no minute to spare"))
        self._key = self.figure.legend(handles=patches, loc="outside lower center", ncols=2, frameon=False, fontsize=11)


def _looks(plan):
    names = list(dict.fromkeys(flavour_of(one.step) for one in sorted(plan.placed, key=lambda p: p.step.name)))
    return {name: _LOOKS[number % len(_LOOKS)] for number, name in enumerate(names)}


def _says(plan, rows, day, by):
    """When the day's work begins and ends, who is busiest, and what leaves no minute."""
    busy = {name: sum(end - begin for begin, end, *_ in bars) for name, bars in rows.items()}
    if not any(busy.values()):
        return f"Nothing is done by hand on day {day}."
    first = min(b[0] for bars in rows.values() for b in bars)
    last = max(b[1] for bars in rows.values() for b in bars)
    most = max(busy, key=busy.get)
    return (
        f"Day {day}: from {clock(first % DAY)} to {clock(last % DAY)}. Busiest is {most}, {span(busy[most])} at work; "
        f"{sum(1 for time in busy.values() if time)} of {len(busy)} {by} have something to do. {plan.proof}"
    )


def work_of(plan):
    """Every task of a plan as rows for a spreadsheet: the headings, then begin, end, what, pairs, machine.

    >>> from pastrylab.trade.planning import Lab, Step, make_plan
    >>> work_of(make_plan([Step("cast", 30)], (), Lab(1, ((480, 510),))))[1]
    ('8:00', '8:30', 'cast', 'pair 1', '')
    """
    rows = [("begins", "ends", "what", "who", "machine")]
    for task in shared_out(plan):
        one = task.placed
        machine = f"{one.step.machine} {one.machine}" if one.machine and not task.cleans else ""
        rows.append(
            (clock(task.begins), clock(task.ends), task.what, ", ".join(f"pair {n}" for n in task.teams), machine)
        )
    return tuple(rows)
