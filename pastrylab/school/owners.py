"""Whose hand-in it is, which of its lines count for them, and what a human eye should see."""

import re
from collections import Counter
from dataclasses import dataclass
from datetime import datetime, timedelta

from pastrylab.school.named import number_named

BACKWARDS = timedelta(minutes=15)  # a clock that is set right moves less
_A_MOMENT = timedelta(seconds=20)
_MOST_AT_ONCE = 4
_MOST_UNNAMED = 4  # exercises: a lesson begun before there was a number
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
    told = Counter(" and ".join(who) for entry in hand_in.entries if (who := roll.whose(entry["student"])))
    listed = [who for who, _count in told.most_common() if _listed(who, roll)]
    listed.sort(key=lambda who: len(roll.whose(who)))  # what one did alone says more of whose machine it is
    noted, named = " and ".join(roll.whose(hand_in.named)), _named(hand_in.where, roll)
    kept = noted if _listed(noted, roll) else ""
    claims = [claim for claim in (kept, named) if claim]
    if len(listed) == 1 or (listed and not claims):
        owner = next((one for one in claims if one in roll.whose(listed[0])), listed[0])
    elif listed:
        owner = next((who for who in claims if who in listed), listed[0])
    else:
        owner = kept or named or (told.most_common(1)[0][0] if told else noted)
    doubts = []
    for claim, what in ((kept, "the number kept with it"), (named, "its name")):
        if claim and not set(roll.whose(claim)) & set(roll.whose(owner)):
            doubts.append(f"{what} says {claim}, its lines say {owner}")
    if not owner:
        doubts.append("no number anywhere: whose is it?")
    doubts += [f"the number {one[:40]} is not in the class list" for one in roll.whose(owner) if not roll.of(one)]
    return owner, doubts


def _listed(who, roll):
    """Whether one of a student or a group stands in the list."""
    return any(map(roll.of, roll.whose(who)))


def groups_in(hand_in, roll):
    """The groups whose work lies in a hand-in, those with somebody of the list: a set of tuples of numbers.

    >>> from pastrylab.school.handed_in import HandIn
    >>> groups_in(HandIn("17"), None)
    set()
    """
    who = {roll.whose(typed) for typed in {entry["student"] for entry in hand_in.entries}}
    return {one for one in who if len(one) > 1 and any(map(roll.of, one))}


def takers_of(hand_in, owner, roll):
    """{number: whether the hand-in is theirs} of all for whom lines of it count: its owners, and those who worked with them.

    >>> from pastrylab.school.class_list import ClassList, Student
    >>> from pastrylab.school.handed_in import HandIn
    >>> lines = [{"student": "17 and 23", "exercise": "02.seed-for-a-bowl", "answer": "485 g"}]
    >>> takers_of(HandIn("17", [lines]), "17", ClassList((Student("17"), Student("23"))))
    {'17': True, '23': False}
    """
    found = dict.fromkeys(roll.whose(owner) or (owner,), True)
    for who in groups_in(hand_in, roll):
        found = {one: False for one in who if roll.of(one)} | found
    return dict(sorted(found.items()))


def _named(where, roll):
    """The number, or the group, that the name of a folder or a zip states, "" where it states none or several."""
    parts = where.casefold().split("/")
    stated = {number_named(found[1].replace("-and-", " and ")) for part in parts if (found := _IN_A_NAME.search(part))}
    stated = stated or {number_named(part.removesuffix(".zip")) for part in parts}
    words = {number_named(word) for part in parts for word in re.findall(r"[^\W_]+", part)}
    for found in (stated, words):
        known = [who for who in found if _listed(who, roll)]
        if len(known) == 1:
            return known[0]
    return ""


def looked_at(hand_in, owner, judge, roll, span, theirs=True, others=()):
    """(lines, doubts, left out): [(when, entry)] of what counts for the owner, a Counter of sentences on what is left out or
    doubtful, and how many lines were left out.

    A file is only ever written at its end, so a line counts as no earlier than the one before it, whatever time it states.
    theirs: False for a hand-in of another one, of which only group work counts. others: words of other sections, drawn
    with by nobody of this one's. judge: a Judge; span: (the earliest time that counts or None, the latest there can be), datetimes with a zone.

    >>> from pastrylab.school.handed_in import HandIn
    >>> looked_at(HandIn("17", torn=[("02.jsonl", 3)]), "17", None, None, (None, None))
    ([], Counter({'cannot be read: 02.jsonl line 3': 1}), 0)
    """
    kept, doubts, left_out = [], Counter(), 0
    for file in hand_in.files:
        latest = None
        for entry in file:
            if ".guess." in entry["exercise"] or not (theirs or _of_a_group(entry, owner, roll)):
                continue
            when = time_of(entry["when"])
            why = _left_out(entry, when, owner, judge, roll, span[0])
            if why:
                doubts[why] += 1
                left_out += 1
                continue
            if when > span[1]:
                doubts["a time that has not come yet"] += 1
            else:
                if latest and when < latest - BACKWARDS:
                    doubts["written after a line with a later time, and counted as of then"] += 1
                when = latest = max(latest or when, when)
            if entry["student"] and not _of_a_group(entry, owner, roll):
                doubts.update(_of_anothers_numbers(entry, owner, judge, others))
            kept.append((when, entry))
    if theirs:
        doubts.update(dict(_of_its_files(hand_in)))
    return kept, +doubts, left_out


def _of_anothers_numbers(entry, owner, judge, others):
    """Sentences on a line that was asked with numbers of somebody else's."""
    if entry["student"] != owner:
        yield f"asked with the numbers of '{entry['student'][:40]}'"
    if others and judge.known[entry["values"]].word in others:
        yield "asked with the numbers of another section"


def _of_its_files(hand_in):
    """{sentence: lines} on lines that could not be read, and on those that claim a verdict."""
    said = {
        "cannot be read": hand_in.torn,
        "says itself what it is worth, as no lesson writes it, and is not believed": hand_in.claims,
    }
    for what, lines in said.items():
        if lines:
            yield f"{what}: {', '.join(f'{file} line {line}' for file, line in lines[:5])}", len(lines)


def _of_a_group(entry, owner, roll):
    who = roll.whose(entry["student"])
    return len(who) > 1 and owner in who


def _left_out(entry, when, owner, judge, roll, begins):
    """Why a line does not count, "" where it does."""
    who = roll.whose(entry["student"])
    if who and owner not in who and any(map(roll.of, who)):
        return f"not counted: a line of number {' and '.join(who)}"
    if entry["exercise"] not in judge.exercises:
        return "not counted: an exercise there is not"
    if not judge.knows(entry["values"]):
        return f"not counted: values {entry['values'][:20]}, which are not among those given out"
    if when is None:
        return "not counted: a time that is none"
    if begins and when < begins:
        return "not counted: a time before the term"
    return ""


def time_of(text):
    """A line's time as a datetime with its zone; None for what is none, or beyond what a machine's clock can say.

    >>> time_of("2026-10-05T10:00:00+00:00").hour, time_of("yesterday")
    (10, None)
    """
    try:
        when = datetime.fromisoformat(text)
    except ValueError:
        return None
    return when if when.tzinfo and 1970 <= when.year < 2200 else None


def too_quick(lines):
    """A sentence where a student answered more exercises in a moment than can be read in it, else "".

    lines: [(when, exercise)] in order.

    >>> too_quick([(time_of("2026-10-05T10:00:00+00:00"), "02.seed-for-a-bowl")] * 9)
    ''
    """
    begin = 0
    for end, (when, _which) in enumerate(lines):
        while when - lines[begin][0] > _A_MOMENT:
            begin += 1
        if end - begin >= _MOST_AT_ONCE and len({which for _when, which in lines[begin : end + 1]}) > _MOST_AT_ONCE:
            return f"more than {_MOST_AT_ONCE} exercises answered within {_A_MOMENT.seconds} seconds"
    return ""


def without_a_number(answered):
    """[Flag] for each student who answered more exercises than a few without a number, to the values that everybody has,
    where most of the class answered with numbers of their own.

    answered: {number: {exercise: the names it was asked with, a set, "" for none}}.

    >>> without_a_number({"17": {"02.seed-for-a-bowl": {""}}})
    []
    """
    answered = {number: its for number, its in answered.items() if number}
    own = sum(any(any(names) for names in its.values()) for its in answered.values())
    if 2 * own <= len(answered):
        return []
    flags = []
    for number, its in answered.items():
        count = sum(names == {""} for names in its.values())
        if count > _MOST_UNNAMED:
            says = f"answered without a number, to the values that everybody has: {count} exercises"
            flags.append(Flag(number, "", says))
    return flags
