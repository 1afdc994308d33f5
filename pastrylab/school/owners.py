"""Whose hand-in it is, which of its lines count for them, and what a human eye should see."""

import re
from collections import Counter
from dataclasses import dataclass
from datetime import datetime, timedelta

from pastrylab.school.named import number_named

_BACKWARDS = timedelta(minutes=15)  # a clock that is set right moves less
_IN_A_NAME = re.compile(r"number[-_ ]0*([a-z0-9-]+?)(?=_|\.|$)")


@dataclass(frozen=True)
class Flag:
    """What to look at: whose (a number, "" for nobody), where (a path below the folder, or an exercise), and what it is.

    >>> Flag("17", "", "nothing handed in").says
    'nothing handed in'
    """

    who: str
    where: str
    says: str


def owner_of(hand_in, roll):
    """(number, [what is doubtful]) of a hand-in: by its lines first, then by the number kept with it, then by its name.

    The number is one of the list, or what the lines say where that is not in the list, or "" where nothing says it.

    >>> from pastrylab.school.class_list import ClassList, Student
    >>> from pastrylab.school.handed_in import HandIn
    >>> owner_of(HandIn("number-017"), ClassList((Student("17"),)))
    ('17', [])
    """
    told = Counter(who for entry in hand_in.entries if (who := _who(entry["student"], roll)))
    listed = [who for who, _count in told.most_common() if roll.of(who)]
    noted, named = _who(hand_in.named, roll), _named(hand_in.where, roll)
    kept = noted if roll.of(noted) else ""
    if len(listed) == 1:
        owner = listed[0]
    elif listed:
        owner = next((who for who in (kept, named) if who in listed), listed[0])
    else:
        owner = kept or named or (told.most_common(1)[0][0] if told else noted)
    doubts = []
    for claim, what in ((kept, "the number kept with it"), (named, "its name")):
        if claim and claim != owner:
            doubts.append(f"{what} says {claim}, its lines say {owner}")
    if not owner:
        doubts.append("no number anywhere: whose is it?")
    elif not roll.of(owner):
        doubts.append(f"the number {owner[:40]} is not in the class list")
    return owner, doubts


def _who(student, roll):
    """A student of a line as a number; a name of the list counts as the number beside it."""
    number = number_named(student)
    return number if roll.of(number) else roll.number_of(number) or number


def _named(where, roll):
    """The number that the name of a folder or a zip states, "" where it states none or several."""
    parts = where.casefold().split("/")
    stated = {number_named(found[1]) for part in parts if (found := _IN_A_NAME.search(part))}
    stated = stated or {number_named(part.removesuffix(".zip")) for part in parts}
    words = {number_named(word) for part in parts for word in re.findall(r"[^\W_]+", part)}
    for found in (stated, words):
        known = [who for who in found if roll.of(who)]
        if len(known) == 1:
            return known[0]
    return ""


def looked_at(hand_in, owner, judge, roll, span):
    """(lines, doubts, left out): [(when, entry)] of what counts for the owner, a Counter of sentences on what is left out or
    doubtful, and how many lines were left out.

    A file is only ever written at its end, so a line counts as no earlier than the one before it, whatever time it states.
    judge: a Judge; span: (the earliest time that counts or None, the latest there can be), datetimes with a zone.

    >>> from pastrylab.school.handed_in import HandIn
    >>> looked_at(HandIn("17", torn=[("02.jsonl", 3)]), "17", None, None, (None, None))
    ([], Counter({'cannot be read: 02.jsonl line 3': 1}), 0)
    """
    kept, doubts, left_out = [], Counter(), 0
    for file in hand_in.files:
        latest = None
        for entry in file:
            if ".guess." in entry["exercise"]:
                continue
            when = _time(entry["when"])
            why = _left_out(entry, when, owner, judge, roll, span[0])
            if why:
                doubts[why] += 1
                left_out += 1
                continue
            if when > span[1]:
                doubts["a time that has not come yet"] += 1
            else:
                if latest and when < latest - _BACKWARDS:
                    doubts["written after a line with a later time, and counted as of then"] += 1
                when = latest = max(latest or when, when)
            if entry["student"] not in ("", owner):
                doubts[f"asked with the numbers of '{entry['student'][:40]}'"] += 1
            kept.append((when, entry))
    if hand_in.torn:
        where = ", ".join(f"{file} line {line}" for file, line in hand_in.torn[:5])
        doubts[f"cannot be read: {where}"] = len(hand_in.torn)
    return kept, doubts, left_out


def _left_out(entry, when, owner, judge, roll, begins):
    """Why a line does not count, "" where it does."""
    who = _who(entry["student"], roll)
    if who and who != owner and roll.of(who):
        return f"not counted: a line of number {who}"
    if entry["exercise"] not in judge.exercises:
        return "not counted: an exercise there is not"
    if not judge.knows(entry["values"]):
        return f"not counted: values {entry['values'][:20]}, which are not among those given out"
    if when is None:
        return "not counted: a time that is none"
    if begins and when < begins:
        return "not counted: a time before the term"
    return ""


def _time(text):
    try:
        when = datetime.fromisoformat(text)
    except ValueError:
        return None
    return when if when.tzinfo and 1970 <= when.year < 2200 else None  # no machine's clock stands beyond
