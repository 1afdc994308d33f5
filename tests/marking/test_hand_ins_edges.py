"""How much of a hand-in is read, to the byte and to the zip; what is read of a file name; which times there are."""

import pytest
from lines_handed_in import line, right, zipped

from pastrylab.school.handed_in import handed_in, shown
from pastrylab.school.owners import time_of, too_quick, without_a_number

ONE = line("17", right("17")) + "\n"


def hole(path, size):
    with open(path, "r+b") as file:
        file.truncate(size)  # nothing is written


@pytest.mark.parametrize(("size", "read"), [(5_000_000, True), (5_000_001, False)])
def test_a_file_of_five_megabytes(hand_in, size, read):
    hole(hand_in("17/01.jsonl", ONE.encode()), size)
    hand_ins, troubles = handed_in(hand_in.folder)
    assert bool(hand_ins) == read and bool(troubles) != read
    hand_in("17/01.jsonl", b"")
    hand_in("all.zip", zipped({"18/01.jsonl": ONE.encode() + b" " * (size - len(ONE))}))
    hand_ins, troubles = handed_in(hand_in.folder)
    assert ("all.zip/18" in [one.where for one in hand_ins]) == read and bool(troubles) != read


@pytest.mark.parametrize(("size", "says"), [(500_000_000, "damaged"), (500_000_001, "larger than 500 MB")])
def test_a_download_of_half_a_gigabyte(hand_in, size, says):
    hole(hand_in("all.zip", zipped({"01.jsonl": ONE})), size)
    assert says in handed_in(hand_in.folder)[1][0][1]


@pytest.mark.parametrize(("zips", "read"), [(1, True), (4, True), (5, False)])
def test_four_zips_in_one_another(hand_in, zips, read):
    raw = zipped({"17/01.jsonl": ONE})
    for _ in range(zips - 1):
        raw = zipped({"in.zip": raw})
    hand_in("all.zip", raw)
    hand_ins, troubles = handed_in(hand_in.folder)
    assert bool(hand_ins) == read and bool(troubles) != read


@pytest.mark.parametrize("name", ["01 (2).jsonl", "01 - copy.jsonl", "01-Copy.jsonl", "02.jsonl", "01.jsonl (1)"])
def test_files_by_the_programs_own_names_are_one_hand_in(hand_in, name):
    hand_in("17/01.jsonl", ONE.encode())
    hand_in(f"17/{name}", ONE.encode())
    (one,), troubles = handed_in(hand_in.folder)
    assert len(one.files) == 2 and troubles == []


@pytest.mark.parametrize("name", ["number.txt", "student.txt", "Number.TXT"])
def test_the_number_beside_a_folder_of_answers_counts_for_it(hand_in, name):
    hand_in("x/my-answers/01.jsonl", ONE.encode())
    hand_in(f"x/{name}", b"\xef\xbb\xbf 017 \n")
    assert handed_in(hand_in.folder)[0][0].named == "017"


def test_only_a_values_file_in_its_place_is_taken_for_one(hand_in):
    hand_in("17/01.jsonl", ONE.encode())
    for name in ("17/values/0badc0de.csv", "17/values/notes.csv", "17/0badc0de.csv", "17/old/0badc0de.csv"):
        hand_in(name, name.encode())
    assert handed_in(hand_in.folder)[0][0].values == {"0badc0de": b"17/values/0badc0de.csv"}


@pytest.mark.parametrize("asked", ["stat", "read_bytes"])
@pytest.mark.parametrize(("error", "says"), [((13, "Permission denied"), "Permission denied"), (("gone",), "gone")])
def test_a_file_that_cannot_be_read_is_named_with_the_reason(hand_in, monkeypatch, asked, error, says):
    hand_in("17/01.jsonl", ONE.encode())
    hand_in("18/01.jsonl", ONE.encode())
    plain = getattr(type(hand_in.folder), asked)

    def refused(path, *given, **more):
        if path.name == "01.jsonl" and path.parent.name == "17" and not more:
            raise OSError(*error)
        return plain(path, *given, **more)

    monkeypatch.setattr(type(hand_in.folder), "is_file", lambda path: True)
    monkeypatch.setattr(type(hand_in.folder), asked, refused)
    hand_ins, troubles = handed_in(hand_in.folder)
    assert [one.where for one in hand_ins] == ["18"]
    assert troubles == [("17/01.jsonl", f"cannot be read ({says})")]


def test_an_answer_without_end_is_cut_where_a_page_would(hand_in):
    hand_in("17/01.jsonl", line("17", "9" * 5_000).encode())
    assert handed_in(hand_in.folder)[0][0].entries[0]["answer"] == "9" * 2_000


def test_a_name_as_it_can_be_shown():
    assert shown("a\nb\tc\udcff") == "a b c?" and len(shown("x" * 300)) == 200


@pytest.mark.parametrize(
    ("text", "there"),
    [
        ("1969-12-31T23:59:59+00:00", False),
        ("1970-01-01T00:00:00+00:00", True),
        ("2199-12-31T23:59:59+00:00", True),
        ("2200-01-01T00:00:00+00:00", False),
        ("2026-10-05T10:00:00", False),
        ("2026-10-05T10:00:00Z", True),
        ("", False),
    ],
)
def test_times_that_a_clock_can_say(text, there):
    assert (time_of(text) is not None) == there


@pytest.mark.parametrize(
    ("seconds", "exercises", "told"),
    [
        ((0, 5, 10, 15, 20), "abcde", True),
        ((0, 5, 10, 15, 21), "abcde", False),
        ((0, 5, 10, 15), "abcd", False),
        ((0, 1, 2, 3, 4), "abcda", False),
        ((0, 30, 35, 40, 45, 50), "abcdef", True),
        ((0, 1, 2, 3, 30, 31, 32, 33), "abcdefgh", False),
        ((0, 0, 0, 0, 0), "abcde", True),
    ],
)
def test_five_exercises_in_twenty_seconds(seconds, exercises, told):
    when = "2026-10-05T10:00:{:02}+00:00".format
    says = too_quick([(time_of(when(at)), which) for at, which in zip(seconds, exercises, strict=True)])
    assert says == ("more than 4 exercises answered within 20 seconds" if told else "")


OWN, UNNAMED = {"17"}, {""}


@pytest.mark.parametrize(
    ("mine", "others", "told"),
    [
        ([UNNAMED] * 5, [OWN, OWN], True),
        ([UNNAMED] * 4, [OWN, OWN], False),  # a lesson begun before there was a number
        ([UNNAMED] * 4 + [{"", "17"}], [OWN, OWN], False),  # answered once more, to numbers of one's own
        ([UNNAMED] * 5, [OWN, UNNAMED], False),  # a class that uses no numbers
        ([UNNAMED] * 5 + [OWN], [OWN, UNNAMED], True),
    ],
)
def test_who_answers_five_exercises_to_everybodys_values(mine, others, told):
    answered = {str(at): {"a": one} for at, one in enumerate(others, start=30)}
    answered |= {"17": dict(zip("abcdef", mine, strict=False)), "": dict.fromkeys("abcde", UNNAMED) if told else {}}
    says = "answered without a number, to the values that everybody has: 5 exercises"
    assert [(flag.who, flag.says) for flag in without_a_number(answered)] == ([("17", says)] if told else [])
