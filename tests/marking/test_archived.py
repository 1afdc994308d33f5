"""A term's folder without names: looked through by the test itself, byte by byte, and marked again."""

import csv
import html
import io
import json
import re
import unicodedata
import zipfile

import pytest
from lines_handed_in import line, right, zipped

from pastrylab.desk.archived import archive
from pastrylab.desk.commands import main
from pastrylab.desk.marked import mark_folder
from pastrylab.ground.units import StudentError
from pastrylab.school.class_list import ClassList, Student
from pastrylab.school.names_out import Names

ROLL = (
    "Student ID;Last Name;First Name;Section\n"
    "017;Doe-Grün;Zoë;A\n18;O'Nought;Bo;A\n19;Brown;Rose;B\n20;Nemo;Ana María;B\n21;Nemo;Ana María;B\n22;Li;Q;B\n"
)
WHOLE = ["zoe doe grun", "bo o nought", "rose brown", "ana maria nemo", "q li"]


@pytest.fixture
def term(tmp_path, own_workbook):
    """A folder as it lies at the end of a term, the list, and a place for the archive."""
    base = tmp_path / "term"
    put = {
        "hand-ins/doe-grün_zoë_17_attempt.zip": zipped(
            {
                "lesson-01_number-17/01.jsonl": line("17", "9 g") + "\n" + line("017", right("017")),
                "lesson-01_number-17/number.txt": "17\n",
                "lesson-01_number-17/values/0badc0de.csv": "lesson,exercise\n",
            }
        ),
        "hand-ins/all.zip": zipped(
            {
                "Bo O'Nought/18.zip": zipped({"my-answers/01.jsonl": line("bo o'nought", right("bo o'nought"))}),
                "Rose Brown (B)/my-answers/01.jsonl": line("Rosie", "9 g") + "\n" + line("19", "so says rose brown"),
                "Rose Brown (B)/my-answers/student.txt": "rose brown\n",
                "readme.txt": "Made for Zoe\u0308 DOE-GRÜN, doe.gruen and zoe.doe-grun@example.org",
            }
        ),
        "hand-ins/nemo_anamaría/my-answers/01.jsonl": line("20 and 22", right("20 and 22")) + "\n" + '{"when": "Q Li',
        "notes.txt": "Ana María Nemo was ill; Brown, Rose was not. A rose is a rose.".encode("utf-16"),
        "page.html": "<p>Zo&euml; Doe-Gr&#252;n, Bo O&#39;Nought, bo_onought, <b>Zo%C3%AB%20Doe-Gr%C3%BCn</b></p>",
        "note.json": json.dumps({"who": "Zoë Doe-Grün", "nested": [{"Q Li": "LI, Q"}]}),
        "class.csv": ROLL.encode("utf-16"),
        "photo of Bo.jpg": b"\xff\xd8\xff\x00",
        "paper/q-li.pdf": b"%PDF-1.7 Q Li",
    }
    for name, content in put.items():
        path = base / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    roll = tmp_path / "list.csv"
    roll.write_text(ROLL, encoding="utf-8")
    mark_folder(base / "hand-ins", roll, base / "marks")
    return base, roll, tmp_path / "archive"


def everything(path):
    """(path, text) of every file, zips opened, as it reads on a page: escapes undone, no marks, words alone."""

    def opened(name, data):
        if data[:2] == b"PK":
            with zipfile.ZipFile(io.BytesIO(data)) as packed:
                for one in packed.namelist():
                    yield from opened(f"{name}/{one}", packed.read(one))
            return
        text = data.decode("utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8")
        for undo in (html.unescape, lambda t: re.sub(r"\\u(....)", lambda m: chr(int(m[1], 16)), t)):
            text = undo(text)
        plain = unicodedata.normalize("NFD", f"{name} {text}".replace("%C3%AB", "ë").replace("%C3%BC", "ü")).lower()
        yield name, " ".join(re.findall(r"[a-z]+", "".join(c for c in plain if not unicodedata.combining(c))))

    for file in sorted(path.rglob("*")):
        if file.is_file():
            yield from opened(str(file.relative_to(path)), file.read_bytes())


def test_no_name_is_left_anywhere_and_the_term_is_as_it_was(term):
    base, roll, out = term
    before = {path: path.read_bytes() for path in base.rglob("*") if path.is_file()}
    clean, said = archive(base, roll, out)
    found = dict(everything(out))
    for name, text in found.items():
        for whole in WHOLE:
            words = whole.split()
            turned = [*words[1:], words[0]], [words[-1], *words[:-1]], words
            assert not any(f" {' '.join(one)} " in f" {text} " or "".join(one) in text.split() for one in turned), name
        for part in ("zoe", "grun", "nought", "nemo", "maria", "rosie"):
            assert part not in text.split(), (name, part)
    assert {path: path.read_bytes() for path in base.rglob("*") if path.is_file()} == before
    told = " ".join(said)
    assert clean and "no name of the list is left" in told and "delete them by hand" in told
    assert told.count("Left out") == 2 and "photo of Bo.jpg" in told and "q-li.pdf" in told
    assert "Answers asked with the numbers of a typed name: 2." in told and "rose" in told


def test_what_is_no_name_stands_as_it_stood(term):
    base, roll, out = term
    archive(base, roll, out)
    assert "A rose is a rose." in (out / "notes.txt").read_text(encoding="utf-8")
    (group,) = [path for path in out.rglob("01.jsonl") if path.parent.name == "my-answers"]
    assert group.read_text().splitlines()[0] == line("20 and 22", right("20 and 22"))
    with zipfile.ZipFile(next((out / "hand-ins").glob("17_*.zip"))) as packed:
        lines = packed.read("lesson-01_number-17/01.jsonl").decode().splitlines()
        assert packed.read("lesson-01_number-17/values/0badc0de.csv") == b"lesson,exercise\n"
    assert lines == [line("17", "9 g"), line("017", right("017"))], "017 drew other numbers: it stays as it is"
    with open(out / "marks" / "gradebook.csv", encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file, delimiter=";"))  # as its class list
    with open(base / "marks" / "gradebook.csv", encoding="utf-8-sig", newline="") as file:
        assert [row | {"name": ""} for row in csv.DictReader(file, delimiter=";")] == rows and len(rows) == 6
    with open(out / "class.csv", encoding="utf-8-sig", newline="") as file:
        assert next(csv.reader(file)) == ["Student ID;Last Name;First Name;Section"] and "017;;;A" in file.read()


def test_marked_again_the_archive_gives_the_same_to_all_who_drew_by_number(term, tmp_path):
    base, roll, out = term
    archive(base, roll, out)
    numbers = tmp_path / "numbers.csv"
    numbers.write_text("number,section\n017,A\n18,A\n19,B\n20,B\n21,B\n22,B\n")
    mark_folder(out / "hand-ins", numbers, tmp_path / "again")

    def points(path, delimiter):
        with open(path / "lessons.csv", encoding="utf-8-sig", newline="") as file:
            rows = csv.DictReader(file, delimiter=delimiter)
            return {row["number"]: row["points"] for row in rows if row["lesson"] == "lesson 01"}

    first, again = points(base / "marks", ";"), points(tmp_path / "again", ",")
    assert first["017"] == first["18"] == first["20"] == first["22"] == "1"
    assert {**again, "18": "1"} == first, "18 had typed a name: said, and marked already"


def test_said_where_nothing_can_be_done(term, tmp_path, capsys):
    base, roll, out = term
    nameless = tmp_path / "nameless.csv"
    nameless.write_text("number\n17\n")
    for given, says in (
        ((base / "nothing", roll, out), "no folder"),
        ((base, nameless, out), "without names"),
        ((base, tmp_path / "no.csv", out), "no.csv"),
        ((base, roll, base / "inside"), "lies in"),
        ((base, roll, base), "lies in"),
    ):
        with pytest.raises(StudentError, match=says):
            archive(*given)
    assert main(["archive", str(base), "--class", str(roll), "--out", str(out)]) == 0
    assert "Looked through again" in capsys.readouterr().out
    assert main(["archive", str(base), "--class", str(roll), "--out", str(out)]) == 2
    assert "something lies already" in capsys.readouterr().err


def test_links_bombs_and_paths_that_climb_do_no_harm(term, tmp_path):
    base, roll, out = term
    (base / "link").symlink_to(tmp_path)
    (base / "up.zip").write_bytes(zipped({"../../Zoë Doe-Grün.txt": "x", "/etc/bo o'nought.csv": "number,name\n1,x\n"}))
    (base / "broken.zip").write_bytes(b"PK\x03\x04 and no more")
    (base / "bomb.zip").write_bytes(zipped({"a.txt": b"0" * 250_000_000}))
    clean, said = archive(base, roll, out)
    told = " ".join(said)
    assert clean and all(f"names: {name}" in told for name in ("link", "broken.zip", "bomb.zip"))
    with zipfile.ZipFile(out / "up.zip") as packed:
        assert sorted(packed.namelist()) == ["17.txt", "etc/18.csv"]


PEOPLE = Names(
    ClassList(
        (
            Student("1", "Zoë Doe"),
            Student("2", "Al (Bo) Roe"),
            Student("3", "Rose Brown"),
            Student("4", "Ray"),
            Student("5", "Jan van der Meer"),
            Student("6", "Ray"),
        )
    ),
    frozenset({"rose", "brown"}),
)


@pytest.mark.parametrize(
    ("text", "without"),
    [
        ("Zoë Doe", "1"),
        ("ZOË DOE", "1"),
        ("Doe, Zoë", "1"),
        ("doe_zoe_01.zip", "1_01.zip"),
        ("zoedoe", "1"),
        ("Zoe\u0308 Doe", "1"),
        ('"Zo\\u00eb Doe"', '"1"'),
        ("Zo&euml; Doe", "1"),
        ("Al (Bo) Roe", "2"),
        ("Brown, Rose", "3"),
        ("rose, brown sugar", "3 sugar"),
        ("a brown rose", "a 3"),
        ("a rose, then brown sugar", "a rose, then brown sugar"),
        ("Ray", "4 or 6"),
        ("an array of x-rays", "an array of x-rays"),
        ("Meer, Jan van der", "5"),
        ("Doer and Zoëlle", "Doer and Zoëlle"),
        ("the couverture", "the couverture"),
        ("", ""),
    ],
)
def test_names_in_every_hand_and_words_that_are_none(text, without):
    assert PEOPLE.out_of(text) == without
    assert not PEOPLE.left_in(without) and (PEOPLE.left_in(text) or without in (text, "1", "4 or 6"))


def test_what_was_typed_as_a_name_goes_too_but_no_ordinary_word_and_no_letter_or_two():
    typed = (("rosie", "3"), ("honey bear", "3"), ("honey", "4"), ("zo", "1"))
    names = Names(PEOPLE.roll, frozenset({"honey"}), typed)
    assert names.out_of("Rosie likes honey; zo: honey bear") == "3 likes honey; zo: 3"


def test_a_longer_name_goes_before_the_shorter_one_in_it():
    names = Names(ClassList((Student("1", "Ana Doe"), Student("2", "Ana Doe Roe"), Student("30", "Doe Li"))))
    assert names.out_of("Ana Doe Roe, Roe Doe Ana; Ana Doe; Li, Doe") == "2, 2; 1; 30"


def test_an_escape_within_an_escape_is_found_if_not_mended():
    assert PEOPLE.left_in("Zo&amp;euml; Doe") == ("1",) and PEOPLE.left_in("zo%25C3%25ABdoe") == ("1",)
    assert PEOPLE.left_in("Zoelle Doe") == () and PEOPLE.parts_in("a rose by Doe") == ("doe", "rose")


def test_on_a_class_s_server_the_students_answers_go_along(term):
    """Laid out as the server lays it out: an account's folder, the working copy in it, the answers in its lessons."""
    base, roll, out = term
    students, asked = base.parent / "students", {}
    listed = ROLL + "s23;Vole;Ida;A\n"
    roll.write_text(listed, encoding="utf-8")
    for account in ("s23", "idle"):
        own = students / account / "pastrylab-workbook"
        for name, text in {
            "lessons/my-answers/01.jsonl": line(account, right(account)) + "\n" + line(account, "so says Ida Vole"),
            "lessons/my-answers/values/0badc0de.csv": "lesson,exercise\n",
            "my-kitchen/ingredients.csv": "name\nthe cream of Ida Vole\n",
            "lessons/02-tempering.ipynb": "{}",
            "lessons/photo.jpg": "",
        }.items():
            (own / name).parent.mkdir(parents=True, exist_ok=True)
            asked[own / name] = text
            (own / name).write_text(text, encoding="utf-8")
    (students / "s23" / "pastrylab-workbook" / "lessons" / "my-answers" / "up").symlink_to(base)
    clean, said = archive(base, roll, out, students=students)
    there = {path.relative_to(out / "students").as_posix(): path for path in (out / "students").rglob("*.*")}
    assert {name.removeprefix("s23/pastrylab-workbook/") for name in there if name.startswith("s23")} == {
        "lessons/my-answers/01.jsonl",
        "lessons/my-answers/values/0badc0de.csv",
        "my-kitchen/ingredients.csv",
    }
    answers = there["s23/pastrylab-workbook/lessons/my-answers/01.jsonl"].read_text("utf-8").splitlines()
    assert answers == [line("s23", right("s23")), line("s23", "so says s23")], "its number, and whatever was answered"
    assert "vole" not in there["s23/pastrylab-workbook/my-kitchen/ingredients.csv"].read_text("utf-8").lower()
    assert all(path.read_text("utf-8") == text for path, text in asked.items()), "nothing of a student's is touched"
    told = " ".join(said)
    assert clean and "stand as they were" in told and "students/s23/pastrylab-workbook/lessons/my-answers/up" in told
    mark_folder(out / "students", roll, base.parent / "again")
    marked = (base.parent / "again" / "gradebook.csv").read_text("utf-8-sig").splitlines()
    rows = list(csv.DictReader(marked, delimiter=";"))
    assert {row["number"]: row["lesson 01 right"] for row in rows}["s23"] == "1", "marked again from the archive"
    with pytest.raises(StudentError, match="which lies in"):
        archive(base, roll, students / "archive", students=students)
