"""Every wait of a lab day, and what stands ready meanwhile, made before: its twin."""

from dataclasses import dataclass

from pastrylab.trade.planning.steps import clock, span

# What stands ready, and who made it: common practice, no source.
_TWINS = {
    ("make the filling", "fill"): (
        "filling rests",
        "a bag of the same filling",
        "the section before; its time and date on it",
    ),
    ("cast", "fill"): ("shells set", "a mould of shells, covered", "the day before"),
    ("fill", "cap"): ("filling sets in the shell", "filled moulds", "the day before; date on them"),
    ("cap", "turn out"): ("caps set", "capped moulds to turn out", "the section before"),
}
_CLEANING = ("machine is cleaned", "a bowl tempered by hand, one mould", "the pair that waits")


@dataclass(frozen=True)
class Wait:
    """A wait: `what` rests, of which `flavour`, from `begins` to `ends` (minutes from midnight before the first day); the
    `twin` that stands ready, and who `made` it when.

    >>> Wait("shells set", "dark ganache", 490, 520, "a mould of shells", "the day before").length
    30
    """

    what: str
    flavour: str
    begins: int
    ends: int
    twin: str
    made: str

    @property
    def length(self):
        return self.ends - self.begins


def waits(plan):
    """Every Wait of a Plan, by when it begins: rests between the steps of each flavour, its batches taken together from the
    first to the last, and cleanings.

    >>> from pastrylab.trade.orders import larkmoor, steps_of
    >>> from pastrylab.trade.planning import make_plan
    >>> kitchen = larkmoor()
    >>> plan = make_plan(*steps_of(kitchen.takes("24 hazelnut")), kitchen.lab)
    >>> sorted(one.what for one in waits(plan))
    ['caps set', 'filling rests', 'filling sets in the shell', 'shells set']
    """
    found = {}
    for one in plan.placed:
        for after in one.step.after:
            twin = _TWINS.get((after.step.split(":")[0], one.step.name.split(":")[0]))
            if after.least and twin:
                key = (*twin, one.step.job.split(", batch ")[0])
                begins, ends = found.get(key, (one.begins, 0))
                found[key] = min(begins, plan.of(after.step).ends), max(ends, one.begins)
        if one.cleaning:
            found[*_CLEANING, f"{one.step.machine} {one.machine}, {clock(one.cleaned_from)}"] = (
                one.cleaned_from,
                one.cleaned_from + one.cleaning,
            )
    rows = [Wait(what, flavour, *times, twin, made) for (what, twin, made, flavour), times in found.items()]
    return tuple(sorted(rows, key=lambda one: (one.begins, one.ends, one.flavour)))


def wait_table(plan):
    """The waits of a Plan as rows: the headings, then from, to, how long, what waits, what stands ready, who made it.

    >>> from pastrylab.trade.orders import larkmoor, steps_of
    >>> from pastrylab.trade.planning import make_plan
    >>> kitchen = larkmoor()
    >>> wait_table(make_plan(*steps_of(kitchen.takes("24 hazelnut")), kitchen.lab))[4][3:]
    ('hazelnut praline: caps set', 'capped moulds to turn out', 'the section before')
    """
    rows = [("from", "to", "wait", "what waits", "what stands ready", "made by")]
    for one in waits(plan):
        of = one.flavour.split(", ")[0] if one.what == _CLEANING[0] else one.flavour
        rows.append((clock(one.begins), clock(one.ends), span(one.length), f"{of}: {one.what}", one.twin, one.made))
    return tuple(rows)
