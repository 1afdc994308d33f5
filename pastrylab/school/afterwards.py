"""What was put into a file after it had been handed in once: it is only ever written at its end."""

from collections import defaultdict

from pastrylab.school.owners import BACKWARDS, Flag, time_of

_NEXT = 5  # larger files that a file is looked for in: more machines has nobody


def put_in_afterwards(number, hand_ins):
    """[Flag] for each hand-in with lines from before the end of an earlier one that lacks them. hand_ins: of one student.

    An earlier one is one whose lines all stand in the later one; two machines have each their own and are not compared.

    >>> put_in_afterwards("17", [])
    []
    """
    lessons = defaultdict(dict)
    for hand_in in hand_ins:
        for file in hand_in.files:
            lines = frozenset((entry["when"], entry["exercise"], entry["answer"]) for entry in file)
            if lines:
                lessons[file[0]["exercise"].partition(".")[0]].setdefault(lines, hand_in.where)
    flags = []
    for files in lessons.values():
        ordered = sorted(files, key=len)
        for place, earlier in enumerate(ordered):
            later = next((one for one in ordered[place + 1 : place + 1 + _NEXT] if earlier < one), earlier)
            count = _before_its_end(earlier, later - earlier)
            if count:
                says = f"put in after it had been handed in without: {count} {'line' if count == 1 else 'lines'}"
                flags.append(Flag(number, files[later], says))
    return flags


def _before_its_end(earlier, new):
    ends = max(_times(earlier), default=None)
    return sum(when < ends - BACKWARDS for when in _times(new)) if ends else 0


def _times(lines):
    return (when for text, _exercise, _answer in lines if (when := time_of(text)))
