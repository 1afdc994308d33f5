"""Who handed in what another did: the same lines, the same lines at other times, answers to another's numbers."""

from collections import Counter, defaultdict
from itertools import combinations

from pastrylab.school.named import members, number_named
from pastrylab.school.owners import Flag, time_of

_ALIKE = 3  # lines; two students may press in the same second
_STRETCH = 5  # lines with the same seconds between them: in a class of sixty nobody falls into another's rhythm
_DIGITS = 3  # an answer of fewer is hit by chance
_TOLD = 3  # numbers
_MOST_ALIKE = 40  # students with one line: more are a class at one file, said by its first ones


def same_lines(mine):
    """[Flag] for each two students who handed in the same lines: three and more, or all of one of them.

    mine: {number: [HandIn]}. A line is the same by its time, exercise and answer, whoever it says it is of. Work of a group
    is meant to be the same.

    >>> same_lines({"17": [], "18": []})
    []
    """
    holder, holders, of = {}, defaultdict(list), {}
    for owner, hand_ins in mine.items():
        its = set(_of_one(hand_ins))
        of[owner] = len(its)
        for line in its:
            if holder.setdefault(line, owner) is not owner:
                holders[line].append(owner)
    alike = Counter()
    for line, others in holders.items():
        alike.update(combinations(sorted([holder[line], *others])[:_MOST_ALIKE], 2))
    found = defaultdict(dict)
    for (one, other), count in sorted(alike.items()):
        if count >= _ALIKE or count in (of[one], of[other]):
            found[one][other] = count
    return [
        Flag(one, "", f"the same lines as {_several(list(others))}: {max(others.values())}")
        for one, others in found.items()
    ]


def _of_one(hand_ins):
    """(time, exercise, answer) of each line that is not the work of a group."""
    alone = {}
    for hand_in in hand_ins:
        for e in hand_in.entries:
            who = e["student"]
            if who not in alone:
                alone[who] = len(members(number_named(who))) < 2
            if alone[who]:
                yield e["when"], e["exercise"], e["answer"]


def same_lines_at_other_times(mine):
    """[Flag] for two students with the same answers in the same rhythm, at other times: five lines in a row, by the second.

    mine: {number: [HandIn]}. The order of the lines in a file tells nothing: it is their times that are compared.

    >>> same_lines_at_other_times({"17": [], "18": []})
    []
    """
    first, alike = {}, set()
    for owner, hand_ins in mine.items():
        timed = {(time_of(when), which, answer) for when, which, answer in _of_one(hand_ins)}
        lines = sorted(line for line in timed if line[0])
        for at in range(len(lines) - _STRETCH + 1):
            stretch = lines[at : at + _STRETCH]
            begins, ends = stretch[0][0], stretch[-1][0]
            if begins == ends:
                continue
            rhythm = hash(tuple((when - begins, which, answer) for when, which, answer in stretch))
            other, then = first.setdefault(rhythm, (owner, begins))
            if other != owner and then != begins:
                alike.add((other, owner))
    return [
        Flag(
            one,
            "",
            f"the same answers as {other or 'a hand-in without a number'}, at other times but in the same rhythm",
        )
        for one, other in sorted(alike)
    ]


def answers_to_anothers_numbers(students, judged):
    """[Flag] for each student whose wrong answers are right ones of another: three and more, and half of all wrong.

    students: {number: {exercise: Mark}}; judged: the ids of judgements, whose letters everybody shares. Answers of less
    than three digits are not compared.

    >>> answers_to_anothers_numbers({"17": {}, "18": {}}, ())
    []
    """
    right = defaultdict(list)
    for number, marks in students.items():
        for which, mark in marks.items():
            if which not in judged and _telling(mark.right_with):
                right[which, _plain(mark.right_with)].append(number)
    flags = []
    for number, marks in students.items():
        wrong, of = Counter(), 0
        for which, mark in marks.items():
            given = {_plain(text) for text in mark.wrong_with if which not in judged and _telling(text)}
            of += bool(given)
            others = {one for text in given for one in right.get((which, text), ())[:_MOST_ALIKE]}
            wrong.update(others - {number})
        alike = {other: count for other, count in wrong.items() if count >= _ALIKE and 2 * count >= of}
        if alike:
            says = f"wrong here and right for {_several(sorted(alike))}: {max(alike.values())} answers"
            flags.append(Flag(number, "", says))
    return flags


def _several(owners):
    """Numbers in a sentence, the first of many."""
    told = [owner or "a hand-in without a number" for owner in owners[:_TOLD]]
    return ", ".join(told) + (f" and {len(owners) - _TOLD} more" if len(owners) > _TOLD else "")


def _plain(text):
    return "".join(text.casefold().split())


def _telling(text):
    digits = "".join(filter(str.isdigit, text)).strip("0")
    return len(digits) >= _DIGITS
