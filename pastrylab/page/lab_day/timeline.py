"""A plan as a picture: a row for each pair or machine, a bar for each piece of work, on one of its days."""

import textwrap

from matplotlib.patches import Patch
from matplotlib.ticker import FuncFormatter, MultipleLocator

from pastrylab.page.picture import BAND, HABIT, INK, LOST, Picture
from pastrylab.trade.planning import by_team, chains, shared_out
from pastrylab.trade.planning.steps import DAY, clock, span

ROWS = ("pairs", "machines")
# Flavours differ by colour and by hatching; what is no flavour's work is plain.
_LOOKS = ((BAND, ""), ("#9ec5e8", "//"), ("#e5a7a0", "\\\\"), ("#a9d8b8", ".."), ("#cbb7e0", "xx"), (HABIT, "--"))
_LETTER = {False: 0.017, True: 0.03}  # share of the axis that a letter on a bar takes, on a narrow page
_TALL = 4  # rows at most where a word has room upright
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


def short_of(words):
    """A piece of work as a bar has room for it: what is done, and the number of its batch where there are several.

    >>> short_of("cast: dark ganache, batch 2 of 3"), short_of("turn out: dark ganache"), short_of("clean tempering machine 1")
    ('cast 2', 'out', 'clean')
    """
    what = words.split(":")[0]
    batch = words.partition(", batch ")[2].partition(" ")[0]
    return f"{_SHORT.get('clean' if what.startswith('clean') else what, what[:6])} {batch}".strip()


class Timeline(Picture):
    """One day of a plan, by pair or by machine; thick edges mark the chain that leaves no minute."""

    def __init__(self, height=5.4):
        super().__init__(height=height)
        self._names = None

    def update(self, *, plan, day=1, by="pairs"):
        """plan: a Plan; day: which of its days with hours, from 1; by: one of ROWS. Returns the sentence."""
        opens, closes = plan.lab.hours[day - 1]
        rows = {name: [b for b in bars if opens <= b[0] < closes] for name, bars in rows_of(plan, by).items()}
        if self._names is not None:  # the layout is worked out once, and other names are wider
            given, named = self._given
            self.__init__(*given, **named)
        self._names, axes = list(rows), self.axes
        looks, begins = _looks(plan), min((b[0] for bars in rows.values() for b in bars), default=opens)
        self._minutes = closes - begins
        tight = {link.placed.step.name for links in chains(plan).values() for link in links}
        for height, bars in enumerate(rows.values()):
            for start, ends, words, flavour, placed in bars:
                look = ("white", "") if words.startswith("clean") else looks.get(flavour, ("white", ""))
                self._draw(height, start, ends, words, look, placed.step.name in tight)
        axes.set_yticks(range(len(rows)), [textwrap.fill(name, 12) for name in rows])
        axes.set(
            xlim=(begins // 30 * 30 - 5, closes + 5),
            ylim=(len(rows) - 0.4, -0.6),
            xlabel="time of day, hours and minutes",
        )
        axes.set_title(f"Day {opens // DAY + 1}, by {by[:-1]}", fontsize=14, loc="left")
        axes.xaxis.set_major_locator(MultipleLocator(30 if closes - begins <= 240 else 60))
        axes.xaxis.set_major_formatter(FuncFormatter(lambda at, _: clock(at % DAY)))
        self._legend(looks)
        self.alt = _says(plan, rows, opens // DAY + 1, by)
        return self.alt

    def _draw(self, height, begins, ends, words, look, tight):
        colour, hatch = look
        self.axes.barh(
            height,
            ends - begins,
            left=begins,
            height=0.72,
            facecolor=colour,
            hatch=hatch,
            edgecolor=LOST if tight else INK,
            linewidth=2.4 if tight else 0.8,
        )
        short, upright = self._label(short_of(words), (ends - begins) / self._minutes)
        if short:
            box = {"facecolor": "white", "alpha": 0.85, "pad": 1, "linewidth": 0}
            middle = {"ha": "center", "va": "center", "rotation": 90 if upright else 0}
            label = self.axes.text((begins + ends) / 2, height, short, fontsize=11, bbox=box, **middle)
            label.set_clip_on(True)

    def _label(self, short, share):
        """(what a bar of that share of the axis has room for, whether it stands upright)."""
        letter = _LETTER[self.narrow]
        if share >= letter * len(short):
            return short, False
        if len(self._names) <= _TALL and share >= 2 * letter:
            return short, True
        batch = short.rpartition(" ")[2]
        return (batch if batch.isdigit() and share >= 2 * letter else ""), False

    def _legend(self, looks):
        patches = [
            Patch(facecolor=c, hatch=h, edgecolor=INK, label=name or "no flavour") for name, (c, h) in looks.items()
        ]
        patches.append(Patch(facecolor="white", edgecolor=INK, label="cleaning"))
        patches.append(Patch(facecolor="white", edgecolor=LOST, linewidth=2.4, label="no minute to spare"))
        self.figure.legend(handles=patches, loc="outside lower center", ncols=2, frameon=False, fontsize=11)


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
    most, there = max(busy, key=busy.get), plan.lab.teams if by == "pairs" else len(busy)
    return (
        f"Day {day}: from {clock(first % DAY)} to {clock(last % DAY)}. Busiest is {most}, {span(busy[most])} at work; "
        f"{sum(1 for time in busy.values() if time)} of {there} {by} have something to do. {plan.proof}"
    )


def work_of(plan):
    """Every task of a plan as rows for a spreadsheet: the headings, then begin, end, what, pairs, machine, the pairs' stations.

    >>> from pastrylab.trade.planning import Lab, Step, make_plan
    >>> work_of(make_plan([Step("cast", 30)], (), Lab(1, ((480, 510),))))[1]
    ('8:00', '8:30', 'cast', 'pair 1', '', '')
    """
    rows = [("begins", "ends", "what", "who", "machine", "station")]
    for task in shared_out(plan):
        one = task.placed
        machine = f"{one.step.machine} {one.machine}" if one.machine and not task.cleans else ""
        who = ", ".join(f"pair {n}" for n in task.teams)
        where = ", ".join(filter(None, (plan.lab.station(n) for n in task.teams)))
        rows.append((clock(task.begins), clock(task.ends), task.what, who, machine, where))
    return tuple(rows)
