"""What clashes where no plan fits, and what would make one fit."""

from dataclasses import dataclass, replace

_WEIGHT = {"machine": 5, "teams": 3}  # a machine is borrowed less lightly than a mould


@dataclass(frozen=True)
class Change:
    """What more of one sort would make a plan fit. more: {name: how many}; for hours {(day, "earlier" or "later"): minutes}.

    sort: "thing", "machine", "teams" or "hours"; words: the same as people say it.

    >>> from pastrylab.trade.planning.steps import Lab
    >>> Change("thing", {"mould": 2}, "2 more of mould").given(Lab(1, ((0, 60),), things={"mould": 4})).things["mould"]
    6
    """

    sort: str
    more: dict
    words: str

    def given(self, lab):
        """The lab with that change made."""
        if self.sort == "teams":
            return replace(lab, teams=lab.teams + sum(self.more.values()))
        if self.sort == "hours":
            hours = tuple(
                (opens - self.more.get((day, "earlier"), 0), closes + self.more.get((day, "later"), 0))
                for day, (opens, closes) in enumerate(lab.hours)
            )
            return replace(lab, hours=hours)
        which = "machines" if self.sort == "machine" else "things"
        there = getattr(lab, which)
        return replace(lab, **{which: {name: count + self.more.get(name, 0) for name, count in there.items()}})

    @property
    def size(self):
        """How much it asks of a kitchen, to put the smallest first: our own judgement."""
        return sum(self.more.values()) * (1 / 15 if self.sort == "hours" else _WEIGHT.get(self.sort, 1))


@dataclass(frozen=True)
class NoPlan:
    """Why nothing fits. clashes: in words, what cannot hold together; changes: the smallest Change of each sort that would
    fit, the least first. `sentence` says all of it.

    >>> print(NoPlan(("2 of mould",), (Change("thing", {"mould": 1}, "1 more of mould"),)))
    It does not fit. These cannot hold together: 2 of mould. It would fit with 1 more of mould.
    """

    clashes: tuple[str, ...]
    changes: tuple[Change, ...]

    @property
    def sentence(self):
        said = ["It does not fit."]
        if self.clashes:
            said.append(f"These cannot hold together: {'; '.join(self.clashes)}.")
        if self.changes:
            said.append(f"It would fit with {', or with '.join(c.words for c in self.changes)}.")
        else:
            said.append("No change of one sort would make it fit: take steps out, or do some on another day.")
        return " ".join(said)

    def __str__(self):
        return self.sentence
