"""Folders, zips and downloads in any shape are read; bombs, links, climbing paths and rubbish are named and left."""

import io
import os
import zipfile

import pytest
from lines_handed_in import HONEY, line, right, zipped

from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values, handed_in
from pastrylab.school.class_list import class_list
from pastrylab.school.owners import owner_of

ONE = line("17", right("17")) + "\n"


def read(hand_in):
    hand_ins, troubles = handed_in.handed_in(hand_in.folder)
    return {one.where: [e["answer"] for e in one.entries] for one in hand_ins}, dict(troubles)


SHAPES = {
    "a folder": {"17/01.jsonl": ONE},
    "a workbook": {"Ana's copy/pastrylab-workbook/lessons/my-answers/01.jsonl": ONE},
    "a file alone": {"01.jsonl": ONE},
    "downloaded twice": {"17/01 (1).jsonl": ONE},
    "as the class site names it": {"doeana_4711_815_01.jsonl": ONE},
    "shown as text": {"17/01.jsonl.txt": ONE},
    "a zip": {"17.zip": zipped({"my-answers/01.jsonl": ONE})},
    "a zip in capitals": {"17.ZIP": zipped({"my-answers/01.jsonl": ONE})},
    "by Windows": {"17.zip": zipped({"my-answers\\01.jsonl": ONE})},
    "all in one download": {"all.zip": zipped({"doe_17.zip": zipped({"x/my-answers/01.jsonl": ONE})})},
    "saved with a mark before it": {"17/01.jsonl": b"\xef\xbb\xbf" + ONE.encode()},
    "with Windows line ends": {"17/01.jsonl": ONE.replace("\n", "\r\n")},
    "no line end": {"17/01.jsonl": ONE.strip()},
    "what a Mac puts beside it": {
        "17.zip": zipped({"01.jsonl": ONE, "__MACOSX/._01.jsonl": b"\0\5", "._01.jsonl": b"\0"})
    },
    "names of another script": {"Żółć 日本 🍫/01.jsonl": ONE},
}


@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_is_read_alike(hand_in, shape):
    for name, content in SHAPES[shape].items():
        hand_in(name, content if isinstance(content, bytes) else content.encode())
    found, troubles = read(hand_in)
    assert list(found.values()) == [[right("17")]] and troubles == {}


def test_the_one_big_download_may_be_given_itself(hand_in, tmp_path):
    inner = {f"submissions/{number}.zip": zipped({"01.jsonl": line("", number + " g")}) for number in ("17", "18")}
    hand_in("all of them.ZIP", zipped(inner))
    found, troubles = handed_in.handed_in(hand_in.folder / "all of them.ZIP")
    assert [[e["answer"] for e in one.entries] for one in found] == [["17 g"], ["18 g"]] and not troubles
    (tmp_path / "list.csv").write_text("number\n17\n")
    with pytest.raises(StudentError, match="no folder"):
        handed_in.handed_in(tmp_path / "list.csv")


def test_files_of_many_students_in_one_folder_stay_apart(hand_in):
    for number in ("17", "18"):
        hand_in(f"{number}_01.jsonl", line("", number + " g"))
    assert read(hand_in)[0] == {"17_01.jsonl": ["17 g"], "18_01.jsonl": ["18 g"]}


@pytest.mark.parametrize("name", ["../../out/01.jsonl", "/etc/01.jsonl", "C:\\x\\01.jsonl", "..\\01.jsonl"])
def test_a_path_that_climbs_writes_nothing_and_is_named(hand_in, tmp_path, name):
    hand_in("17.zip", zipped({name: ONE}))
    before = sorted(tmp_path.rglob("*"))
    found, troubles = read(hand_in)
    assert list(found.values()) == [[right("17")]] and "climbs out" in troubles["17.zip"]
    assert sorted(tmp_path.rglob("*")) == before


def test_bombs_are_left(hand_in, monkeypatch):
    hand_in("one.zip", zipped({"01.jsonl": b"0" * 60_000_000}))
    found, troubles = read(hand_in)
    assert found == {} and "more in it" in troubles["one.zip/01.jsonl"]
    monkeypatch.setattr(handed_in, "LARGEST_INSIDE", 1_000_000)
    hand_in("many.zip", zipped({f"{n}/01.jsonl": b" " * 400_000 for n in range(9)}))
    assert sum("many.zip" in where for where in read(hand_in)[1]) == 7
    monkeypatch.setattr(handed_in, "MOST_INSIDE", 5)
    assert "9 files" in read(hand_in)[1]["many.zip"]


def test_a_zip_that_lies_about_its_sizes_and_zips_without_end(hand_in):
    deep = zipped({"01.jsonl": ONE})
    for _ in range(6):
        deep = zipped({"in.zip": deep})
    hand_in("deep.zip", deep)
    found, troubles = read(hand_in)
    assert found == {} and "a zip in more than 4" in " ".join(troubles.values())
    raw = bytearray(zipped({"01.jsonl": b"7" * 9_000_000}))
    at = raw.rfind(b"PK\x01\x02") + 24
    raw[at : at + 4] = (100).to_bytes(4, "little")  # "unpacked: a hundred bytes"
    hand_in("liar.zip", bytes(raw))
    found, _troubles = read(hand_in)
    assert found == {} or all(answers == [] for answers in found.values())


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"not a zip", zipped({"01.jsonl": ONE})[:-30], b"\0" * 500])
def test_damaged_zips_are_named(hand_in, content):
    hand_in("17.zip", content)
    assert read(hand_in)[0] == {} and "damaged" in read(hand_in)[1]["17.zip"]


def test_a_zip_with_a_password_is_named(hand_in):
    raw = bytearray(zipped({"01.jsonl": ONE}))
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        raw[raw.find(sign) + at] |= 1
    hand_in("17.zip", bytes(raw))
    assert "password" in read(hand_in)[1]["17.zip/01.jsonl"]


@pytest.mark.skipif(os.name != "posix", reason="links of a POSIX system")
def test_links_are_not_followed(hand_in, tmp_path):
    (tmp_path / "secret").mkdir()
    (tmp_path / "secret" / "01.jsonl").write_text(ONE, encoding="utf-8")
    (hand_in.folder / "17").symlink_to(tmp_path / "secret")
    (hand_in.folder / "01.jsonl").symlink_to(tmp_path / "secret" / "01.jsonl")
    (hand_in.folder / "round").symlink_to(hand_in.folder)
    os.mkfifo(hand_in.folder / "02.jsonl")
    found, troubles = read(hand_in)
    assert found == {} and set(troubles) == {"17", "01.jsonl", "round", "02.jsonl"}


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("17.zip", b"Rar!\x1a\x07\x01\x00rest", "a RAR file under the name of a zip"),
        ("17.zip", b"7z\xbc\xaf\x27\x1crest", "a 7z file under the name of a zip"),
        ("17.zip", b"\x1f\x8b\x08rest", "a gz file under the name of a zip"),
        ("all.zip", zipped({"17.zip": b"Rar!\x1a\x07\x01\x00rest"}), "a RAR file under the name of a zip"),
    ],
)
def test_another_archive_under_the_name_of_a_zip(hand_in, name, content, says):
    hand_in(name, content)
    assert read(hand_in)[0] == {} and says in " ".join(read(hand_in)[1].values())


@pytest.mark.parametrize("inside", [{}, {"photo.jpg": b"\xff\xd8"}, {"my-answers/number.txt": "17"}])
def test_a_zip_without_answers_is_named(hand_in, inside):
    hand_in("17.zip", zipped(inside))
    hand_in("all.zip", zipped({"18.zip": zipped({"01.jsonl": ONE}), "19.zip": zipped(inside)}))
    found, troubles = read(hand_in)
    assert list(found) == ["all.zip/18.zip"] and set(troubles) == {"17.zip", "all.zip/19.zip"}
    assert all("no answers in it" in says for says in troubles.values())


def test_a_link_in_a_zip_is_not_followed(hand_in):
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        link = zipfile.ZipInfo("my-answers/01.jsonl")
        link.external_attr = 0o120777 << 16
        archive.writestr(link, "/etc/passwd")
        archive.writestr("my-answers/02.jsonl", ONE)
    hand_in("17.zip", packed.getvalue())
    found, troubles = read(hand_in)
    assert found == {"17.zip/my-answers": [right("17")]}
    assert troubles == {"17.zip/my-answers/01.jsonl": "a link in a zip: not followed"}


def test_a_line_of_a_hundred_megabytes_is_named_and_not_read(hand_in):
    with open(hand_in("17/01.jsonl", b'{"answer": "'), "r+b") as file:
        file.truncate(100_000_000)  # a hole: nothing is written
    found, troubles = read(hand_in)
    assert found == {} and "larger than 5 MB" in troubles["17/01.jsonl"]


def test_ten_thousand_files_are_read_and_the_disk_is_as_it_was(hand_in, tmp_path):
    hand_in("all.zip", zipped({f"{n}/01.jsonl": ONE for n in range(10_000)}))
    told = []
    hand_ins, troubles = handed_in.handed_in(hand_in.folder, told.append)
    assert len(hand_ins) == 10_000 and troubles == [] and told[-1] == 10_000
    assert sorted(one.name for one in tmp_path.rglob("*")) == ["all.zip", "hand-ins"]


@pytest.mark.parametrize(
    "name", ["~$01.jsonl", "._01.jsonl", ".~lock.01.jsonl#", ".DS_Store", "Thumbs.db", "desktop.ini"]
)
def test_what_a_system_lays_beside_a_file_is_no_hand_in(hand_in, name):
    hand_in(f"17/{name}", b"\x00\x05\x16\x07")
    hand_in("17/01.jsonl", ONE.encode())
    (one,), troubles = handed_in.handed_in(hand_in.folder)
    assert len(one.entries) == 1 and one.torn == [] and troubles == []


@pytest.mark.parametrize("encoding", ["utf-16", "utf-8-sig"])
def test_saved_again_by_an_editor(hand_in, encoding):
    hand_in("17/01.jsonl", ONE.replace("g", "g € ½").encode(encoding))
    (one,), troubles = handed_in.handed_in(hand_in.folder)
    assert len(one.entries) == 1 and one.torn == [] and troubles == []


def test_latin_letters_and_nuls_tear_their_own_line_alone(hand_in):
    broken = ONE.replace("g", "é").encode("latin-1")
    hand_in("17/01.jsonl", broken + b"\0" * 300 + b"\n" + ONE.encode())
    (one,) = handed_in.handed_in(hand_in.folder)[0]
    assert len(one.entries) == 1 and one.torn == [("01.jsonl", 1), ("01.jsonl", 2)]


def test_other_archives_are_named_and_what_is_no_answer_is_passed_by(hand_in):
    hand_in("17.rar", b"Rar!")
    hand_in("17/photo.jpg", b"\xff\xd8")
    hand_in("17/02-tempering.ipynb", b"{}")
    assert read(hand_in)[0] == {} and list(read(hand_in)[1]) == ["17.rar"]


@pytest.mark.parametrize(
    "rubbish", [b"\xff\xfe\x00", b'{"when": "2', b"[1, 2]", b"null", b"[" * 9000, b'{"answer": 3}']
)
def test_a_torn_line_takes_no_other_with_it(hand_in, rubbish):
    hand_in("17/01.jsonl", ONE.encode() + rubbish + b"\n" + ONE.replace("17", "18").encode())
    (one,) = handed_in.handed_in(hand_in.folder)[0]
    assert len(one.entries) == 2 and one.torn == [("01.jsonl", 2)]


def test_values_that_came_along_have_the_id_of_what_is_in_them(hand_in):
    mine = exercise_values.values().moved("low")
    inside = {"my-answers/01.jsonl": ONE, f"my-answers/values/{mine.id}.csv": mine.to_csv()}
    hand_in("17.zip", zipped(inside | {"my-answers/values/0badc0de.csv": mine.to_csv()}))
    (one,) = handed_in.handed_in(hand_in.folder)[0]
    assert set(one.values) == {mine.id, "0badc0de"}
    assert handed_in.carried(one) == {mine.id: mine}


ROLL = class_list("number,name\n2,Bo Roe\n17,Ana Doe\n27,Cy\n")


@pytest.mark.parametrize(
    ("where", "student", "noted", "owner"),
    [
        ("x", "17", "", "17"),
        ("x", "017", "", "17"),
        ("x", "ana doe", "", "17"),
        ("x", "", "17.", "17"),
        ("x", "", "Ana Doe", "17"),
        ("hand-ins/017", "", "", "17"),
        ("17.zip/my-answers", "", "", "17"),
        ("A 17 Ana.zip", "", "", "17"),
        ("lesson-02_number-17_section-a_2026-11-27.zip/x", "", "", "17"),
        ("lesson-02_number-017_section-27_2026-11-27", "", "", "17"),
        ("lesson 02 of 2026-11-27", "", "", ""),
        ("x", "71", "", "71"),
        ("x", "", "", ""),
    ],
)
def test_whose_it_is(where, student, noted, owner):
    entry = {"when": "", "student": student, "exercise": HONEY, "answer": "", "values": ""}
    assert owner_of(handed_in.HandIn(where, [[entry]], named=noted), ROLL)[0] == owner
