"""Who handed in what another did: the same lines, the same lines at other times, answers to another's numbers."""

from collections import Counter, defaultdict
from itertools import combinations

from pastrylab.school.named import members, number_named
from pastrylab.school.owners import Flag

_ALIKE = 3  # lines; two students may press in the same second
_MOST_ALIKE = 40  # students with one line: more are a class at one file, said by its first ones


def same_lines(mine):
    """[Flag] for each two students who handed in the same lines: three and more, or all of one of them.

    mine: {number: [HandIn]}. A line is the same by its time, exercise and answer, whoever it says it is of. Work of a group
    is meant to be the same.

    >>> same_lines({"17": [], "18": []})
    []
    """
    lines = {
        owner: {
            (e["when"], e["exercise"], e["answer"])
            for hand_in in hand_ins
            for e in hand_in.entries
            if len(members(number_named(e["student"]))) < 2
        }
        for owner, hand_ins in mine.items()
    }
    holders = defaultdict(list)
    for owner, its in lines.items():
        for line in its:
            holders[line].append(owner)
    alike = Counter()
    for owners in holders.values():
        if len(owners) > 1:
            alike.update(combinations(sorted(owners)[:_MOST_ALIKE], 2))
    return [
        Flag(one, "", f"the same lines as {other or 'a hand-in without a number'}: {count}")
        for (one, other), count in sorted(alike.items())
        if count >= _ALIKE or count in (len(lines[one]), len(lines[other]))
    ]
