"""`pastrylab key`: pages of a class to print, tables for a spreadsheet, text in the terminal."""

import csv
import hashlib
import re
import shutil

import pytest
from bs4 import BeautifulSoup

from pastrylab.course.catalogue import EXERCISES, FOLDERS, grade, of_lesson
from pastrylab.desk import commands, keys
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values
from pastrylab.school.class_list import Student
from pastrylab.school.engine import Exercise
from pastrylab.school.keys import NOBODY, accepted, key_of

SCRIPT, FORMULA = "<script>alert(1)</script>", '=HYPERLINK("http://x")'
ROLL = "number,name,section\n017,Ana Doe,B\n18,Bo Doe,A\n19,Cy Doe,B\n"


@pytest.fixture
def make(tmp_path):
    """make(list, **more): (what was said, a function from a file's name to its page or, of a table, its rows)."""

    def run(roll=ROLL, **more):
        listed = None
        if roll is not None:
            listed = tmp_path / "list.csv"
            listed.write_bytes(roll if isinstance(roll, bytes) else roll.encode())
        out = tmp_path / "keys"
        said = keys.make_keys(out, listed, more.pop("lessons", ["02"]), **more)

        def read(name):
            text = (out / name).read_text(encoding="utf-8")
            if name.endswith(".csv"):
                assert text.startswith("\ufeff"), "a spreadsheet knows by it that this is UTF-8"
                return list(csv.DictReader(text[1:].splitlines()))
            return BeautifulSoup(text, "html.parser")

        return said, read

    return run


def spaced(element):
    """Its text with plain spaces."""
    return element.get_text().replace("\xa0", " ")


def test_no_line_of_a_key_ends_between_a_number_and_its_unit(make):
    """Every number before a sign of degrees, a share or one of the units a kitchen weighs and measures in."""
    _said, read = make(lessons=["02", "04", "05"], students=["17"], sheets=True)
    for page in ("02-key", "04-key", "05-key", "02-exercises", "05-exercises"):
        text = read(f"lesson-{page}.html").main.get_text()
        assert re.search(r"\d\xa0°C", text), page
        apart = re.findall(r"\d (?:°C|°F|%|g|kg|mL|kJ|oz|lb|min|hPa|fl oz)(?!\w)|fl oz|\(kg °C", text)
        assert not apart, (page, apart)


def test_a_class_gets_a_page_a_student_a_grid_and_a_table(make):
    said, read = make()
    assert said[-1].endswith("for 3 students. They hold names: keep them on your own machine.")
    page = read("lesson-02-key.html")
    students = page.select("table.student")
    assert [one.h1.get_text() for one in students] == ["18 · Bo Doe", "017 · Ana Doe", "19 · Cy Doe"], "by section"
    assert "Section B" in students[1].select_one(".of").get_text()
    asked = of_lesson("02")
    for student, number in zip(students, ("18", "17", "19"), strict=True):
        titles = [one.get_text() for one in student.select("h2")]
        assert titles == [f"{place}. {one.title}" for place, one in enumerate(asked, 1)]
        for exercise, answer in zip(asked, student.select("p.answer"), strict=True):
            assert grade(exercise.id, re.sub(r" \(.*|,.*", "", answer.get_text()), number).right, exercise.id
        assert len(student.select("ol.working li")) >= len(asked)
    slips = spaced(students[1].select_one("p.slips"))
    assert re.search(r"^Slips: .* kJ, melting forgotten; .* kJ, warming forgotten; ", slips)
    grid = read("lesson-02-grid.html")
    assert [len(one.select("tbody tr")) for one in grid.select("section")] == [1, 2]
    assert len(grid.select("thead tr")[0].select("th")) == 1 + len(asked)
    rows = read("lesson-02-key.csv")
    assert len(rows) == 3 * len(asked) and {row["lesson"] for row in rows} == {"lesson 02"}
    for row in rows:
        assert grade(row["exercise"], f"{row['answer']} {row['unit']}", row["number"].lstrip("0")).right, row
        for slip in filter(None, row["slips"].split("; ")):
            wrong, name = slip.split(", ", 1)
            assert not grade(row["exercise"], re.sub(r" \(.*", "", wrong), row["number"].lstrip("0")).right, (row, name)
        assert not row["unit"] or float(row["lowest"]) <= float(row["answer"]) <= float(row["highest"])


def test_numbers_of_a_table_are_those_of_the_grid_and_of_the_pages(make):
    _said, read = make(lessons=["08"])
    rows = read("lesson-08-key.csv")
    cells = [cell.get_text() for cell in read("lesson-08-grid.html").select("td.value")]
    assert sorted(cells) == sorted(row["answer"] for row in rows)
    money = next(row for row in rows if row["exercise"] == "08.price-by-margin")
    assert money["unit"] == "USD" and re.fullmatch(r"\d+\.\d\d", money["answer"])


def test_sheets_ask_all_and_answer_nothing(make):
    said, read = make("number,name\n17,\n18,Bo Doe\n", sheets=True, lessons=["02", "05"])
    assert any("lesson-05-exercises.html" in one for one in said)
    for lesson in ("02", "05"):
        page = read(f"lesson-{lesson}-exercises.html")
        key = read(f"lesson-{lesson}-key.html")
        asked = of_lesson(lesson)
        for student, number in zip(page.select("table.student"), ("17", "18"), strict=True):
            questions = key_of(asked, Student(number)).rows
            assert [spaced(one) for one in student.select("h2 + p")] == [row.question for row in questions]
            assert len(student.select(".room")) == sum(one.kind != "choice" for one in asked)
            assert [len(one.select("li")) for one in student.select("ul.options")] == [
                len(row.options) for row in questions if row.options
            ]
            asks = [one.get_text() for one in student.select(".write span")]
            assert len(asks) == len(asked)
            assert all(ask == "Answer, a letter" for ask, row in zip(asks, questions, strict=True) if row.options)
            text = student.get_text()
            assert "Right from" not in text and not student.select(".answer, .working")
        assert len(key.select("p.answer")) == 2 * len(asked)
    first, second = read("lesson-02-exercises.html").select("table.student")
    assert "Name" in first.get_text() and "Name" not in second.get_text(), "a line for a name that is not known"


def test_sheets_of_an_earlier_time_do_not_stay_beside_a_new_key(make, tmp_path):
    make(sheets=True)
    make()
    assert not (tmp_path / "keys" / "lesson-02-exercises.html").exists()


@pytest.mark.parametrize(
    "name",
    [
        SCRIPT,
        FORMULA,
        "@cmd",
        "+49",
        "-2+3",
        "\tx",
        "עברית",
        "\u202egnp.exe",
        "🍫",
        "A" * 200,
        'O\'Neil "Q" & Co',
        "＝1+1",
    ],
)
def test_a_hostile_name_is_only_a_name(make, name):
    quoted = name.replace('"', '""')
    _said, read = make(f'number,name,section\n17,"{quoted}","{quoted}"\n', sheets=True)
    for which in ("key", "grid", "exercises"):
        page = read(f"lesson-02-{which}.html")
        assert not page.select("script") and name.strip() in page.get_text()
    for row in read("lesson-02-key.csv"):
        assert all(not cell.lstrip().startswith(("=", "+", "-", "@", "＝")) for cell in row.values()), row


def test_a_negative_answer_stays_a_number_in_the_table():
    colder = Exercise(
        "02.mine", "Cold", "How cold?", lambda g: -4.5, "", (), kind="reading", unit="degC", resolution=0.5
    )
    right = accepted(colder, -4.5)
    assert (right.number, right.lowest, right.highest) == ("-4.5", "-5", "-4")
    assert str(keys._number(right.number)) == "-4.5", "no apostrophe, which would make it text"


def test_files_are_called_by_lesson_and_hold_no_name_in_theirs(make, tmp_path):
    make(lessons=(), sheets=True)
    found = sorted(path.name for path in (tmp_path / "keys").iterdir())
    kinds = ("exercises.html", "grid.html", "key.csv", "key.html")
    assert found == [f"lesson-{lesson}-{kind}" for lesson in sorted(FOLDERS) for kind in kinds]


def test_one_section_and_single_students(make):
    _said, read = make(section=" b ")
    assert len(read("lesson-02-key.html").select("table.student")) == 2
    _said, read = make(students=["17", "No. 017", "bo doe"])
    assert [one.get_text() for one in read("lesson-02-key.html").select("h1")] == ["18 · Bo Doe", "017 · Ana Doe"]
    said, read = make(None, lessons=["2", "Lesson 02"])
    assert said[-1].endswith("for the class values.")
    assert read("lesson-02-key.html").h1.get_text() == "Class values"
    said, read = make(None, students=["20"])
    assert said[-1].endswith("for one student.") and read("lesson-02-key.html").h1.get_text() == "20"


@pytest.mark.parametrize(
    ("roll", "more", "says"),
    [
        ("number,name\n", {}, "without a student"),
        (ROLL + "17,Di Doe,A\n", {}, "row 5: the number 17 stands in row 2 already"),
        ("name,section\nAna,A\n", {}, "no column with the numbers"),
        ("", {}, "list.csv"),
        (ROLL, {"section": "C"}, "one of A, B"),
        ("number\n17\n", {"section": "C"}, "a column called section"),
        (ROLL, {"students": ["99"]}, "'99', who is not in the list"),
        (ROLL, {"students": ["17"], "section": "A"}, "'17', who is not in the list"),
        (ROLL, {"lessons": ["10"]}, "one of 01, 02"),
        (ROLL, {"lessons": ["02/../.."]}, "as a lesson"),
        (None, {"section": "A"}, "without a class list"),
        (None, {"students": ["17", "A" * 81]}, "as a class number"),
        (None, {"students": ["17,23"]}, "and between the numbers"),
        (ROLL, {"values": "none.csv"}, "none.csv"),
    ],
)
def test_what_cannot_be_is_refused_in_words_and_writes_nothing(make, tmp_path, roll, more, says):
    with pytest.raises(StudentError, match=re.escape(says)):
        make(roll, **more)
    assert not (tmp_path / "keys").exists()


def test_a_row_without_a_number_is_named_and_the_others_get_their_key(make):
    said, read = make(ROLL + ",Di Doe,A\n")
    assert said[0] == "list.csv, row 5: no number, so nobody of the class."
    assert len(read("lesson-02-key.html").select("table.student")) == 3


def test_a_list_with_semicolons_gets_a_table_with_decimal_commas(make, tmp_path):
    make(ROLL.replace(",", ";"), lessons=["08"])
    text = (tmp_path / "keys" / "lesson-08-key.csv").read_text(encoding="utf-8-sig")
    row = next(one for one in csv.DictReader(text.splitlines(), delimiter=";") if one["unit"] == "USD")
    assert re.fullmatch(r"\d+,\d\d", row["answer"]) and row["as shown"] == "$" + row["answer"].replace(",", ".")


def test_lists_as_programs_save_them(make):
    for roll in (ROLL.replace(",", ";"), "sep=;\n" + ROLL.replace(",", ";"), ROLL.encode("utf-16")):
        _said, read = make(roll)
        assert len(read("lesson-02-key.html").select("table.student")) == 3


def test_a_folder_that_cannot_be_written_is_said(tmp_path):
    (tmp_path / "a file").write_text("")
    with pytest.raises(StudentError, match="cannot be written"):
        keys.make_keys(tmp_path / "a file" / "keys", lessons=["02"])


@pytest.fixture
def spoiled(own_workbook):
    """spoiled(old, new): the workbook's own values, one piece of text in them changed."""

    def change(old, new):
        shutil.copytree(files.folder(), own_workbook / "datasets", dirs_exist_ok=True)
        path = own_workbook / "datasets" / "exercise_values.csv"
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1
        path.write_text(text.replace(old, new), encoding="utf-8")

    return change


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("02,02.seed-for-a-bowl,batch,", "02,02.seed-for-a-bowl,batch,lots", "row "),
        ("02,02.seed-for-a-bowl,batch,", "02,02.no-such-exercise,batch,", "without the given 'batch'"),
    ],
)
def test_one_exercise_with_broken_values_is_missing_and_the_others_stand(make, spoiled, old, new, says):
    spoiled(old, new)
    said, read = make(sheets=True)
    assert said[0].startswith("Lesson 02, 'Seed for a bowl' is missing for 3 of 3: ") and says in said[0]
    asked = of_lesson("02")
    for student in read("lesson-02-key.html").select("table.student"):
        assert len(student.select(".answer")) == len(asked) - 1
        assert says in student.select_one(".missing").get_text()
    assert "Seed for a bowl" not in read("lesson-02-exercises.html").get_text()


def test_a_changed_file_of_values_is_used(make, tmp_path):
    changed = tmp_path / "changed.csv"
    changed.write_text(
        "lesson,exercise,given,value,unit,low,high,step\n08,08.as-purchased,edible,400,g,300,900,20\n"
        "08,08.as-purchased,juice,40,%,32,46,1\n",
        encoding="utf-8",
    )
    said, read = make(None, lessons=["08"], values=changed)
    (row,) = read("lesson-08-key.csv")
    assert (row["answer"], row["unit"]) == ("1000", "g"), "400 g are 40 %"
    assert sum("is missing for 1 of 1" in one for one in said) == len(of_lesson("08")) - 1


def test_in_the_terminal_it_is_said_whose_and_lesson_by_lesson(capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "72")
    assert commands.main(["key", "--student", "017", "--student", "Ana  Doe"]) == 0
    said = capsys.readouterr().out
    assert max(map(len, said.splitlines())) <= 72
    first, second = said.split("Key for ")[1:]
    assert first.startswith("17;") and second.startswith("ana doe;")
    lessons = re.findall(r"^LESSON (\d\d)$", first, re.MULTILINE)
    assert lessons == sorted(FOLDERS)
    assert first.count("  Question: ") == first.count("  Answer: ") == len(EXERCISES)
    assert len(re.findall(r"^  Right (?:from|at|is)", first, re.MULTILINE)) == len(EXERCISES)
    assert commands.main(["key", "--lesson", "05"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("Key for the class values;") and "LESSON 02" not in said
    (row,) = key_of(of_lesson("05")[:1], NOBODY).rows
    assert f"Answer: {row.answer}" in said


def test_a_class_needs_a_folder(capsys, tmp_path):
    for more in (["--class", str(tmp_path / "list.csv")], ["--sheets"]):
        assert commands.main(["key", *more]) == 2
        assert "--out" in capsys.readouterr().err
    (tmp_path / "list.csv").write_text(ROLL, encoding="utf-8")
    out = tmp_path / "out"
    told = ["key", "--class", str(tmp_path / "list.csv"), "--lesson", "01", "--out", str(out)]
    assert commands.main(told) == 0
    assert "lesson-01-key.html" in capsys.readouterr().out and (out / "lesson-01-grid.html").exists()


# --- words of the term, groups ----------------------------------------------------------------------------


@pytest.fixture
def words(own_workbook):
    """words(*rows): the sheet with the words of a term."""

    def put(*rows):
        (own_workbook / "datasets").mkdir(exist_ok=True)
        (own_workbook / "datasets" / "term.csv").write_text("\n".join(["section,word", *rows]) + "\n", encoding="utf-8")

    return put


def grams(who, word=""):
    """What 08.as-purchased asks: an edible part of 300 to 900 g by 20, which is 32 to 46 % of the fruit, by the published rule."""

    def drawn(given, low, high, step):
        text = f"08.as-purchased|{given}|{who}" + f"|{word}" * bool(word)
        count = round((high - low) / step) + 1
        return low + int(hashlib.sha256(text.encode()).hexdigest()[:16], 16) % count * step

    return drawn("edible", 300, 900, 20) / drawn("juice", 32, 46, 1) * 100


def of_the_fruit(read):
    return {
        row["number"]: float(row["answer"]) for row in read("lesson-08-key.csv") if row["exercise"] == "08.as-purchased"
    }


def test_each_section_has_the_numbers_of_its_word(make, words):
    words("A,morning", "everybody,autumn-26")
    _said, read = make("number,section\n17,section a\n18,B\n19,A\n20,\n", lessons=["08"], sheets=True)
    asked = {"17": "morning", "18": "autumn-26", "19": "morning", "20": "autumn-26"}
    found = of_the_fruit(read)
    assert found == {who: pytest.approx(grams(who, word), abs=0.5) for who, word in asked.items()}
    assert len({round(grams("17", word)) for word in ("", "morning", "autumn-26")}) == 3
    for which in ("key", "exercises"):
        pages = read(f"lesson-08-{which}.html").select("table.student")
        for page in pages:
            assert f"term {asked[page.h1.get_text()]} " in page.select_one(".of").get_text()
    lines = [one.get_text() for one in read("lesson-08-grid.html").select(".of")]
    assert len(lines) == 3 and "term autumn-26" in lines[0] and "term morning" in lines[1], "no section, A, B"


def test_a_section_without_a_word_is_named_where_only_some_have_one(make, words, capsys):
    words("A,morning", "B,evening")
    said, _read = make("number,section\n17,A\n18,C\n", lessons=["08"])
    assert sum("no word for the section 'C'" in one for one in said) == 1
    assert commands.main(["key", "--lesson", "08", "--student", "17"]) == 2
    assert "one of a, b" in capsys.readouterr().err
    assert commands.main(["key", "--lesson", "08", "--student", "17", "--section", "B"]) == 0
    said = capsys.readouterr().out
    assert said.startswith("Key for 17, term evening; ") and f"Answer: {grams('17', 'evening'):.4g} g" in said
    assert commands.main(["key", "--lesson", "08"]) == 0
    assert capsys.readouterr().out.startswith("Key for the class values; ")


def test_values_kept_with_a_word_stay_with_it(make, words, tmp_path):
    words("everybody,spring-27")
    kept = tmp_path / "kept.csv"
    kept.write_text(exercise_values.survey().worded("autumn-26").to_csv(), encoding="utf-8")
    words("everybody,autumn-27")
    _said, read = make("number\n17\n", lessons=["08"], values=kept)
    assert of_the_fruit(read)["17"] == pytest.approx(grams("17", "autumn-26"), abs=0.5)


def test_a_group_has_one_key(make):
    _said, read = make(students=["19 & 017", "18"], lessons=["08"])
    assert [one.get_text() for one in read("lesson-08-key.html").select("h1")] == [
        "18 · Bo Doe",
        "17 and 19 · Ana Doe, Cy Doe",
    ]
    assert of_the_fruit(read)["17 and 19"] == pytest.approx(grams("17 and 19"), abs=0.5)
    with pytest.raises(StudentError, match="17 and 99"):
        make(students=["17 and 99"])


def test_groups_of_the_list_have_a_key_and_sheets_behind_their_section(make):
    listed = "number,name,section,works with\n017,Ana Doe,B,19\n18,Bo Doe,A,\n19,Cy Doe,B,ana doe\n20,Di Doe,A,18; 21\n21,,A,\n"
    said, read = make(listed, lessons=["08"], sheets=True)
    assert "for 5 students and 2 groups." in said[-1]
    whose = ["18 · Bo Doe", "20 · Di Doe", "21", "18 and 20 and 21 · Bo Doe, Di Doe"]
    whose += ["017 · Ana Doe", "19 · Cy Doe", "17 and 19 · Ana Doe, Cy Doe"]
    for page in ("lesson-08-key.html", "lesson-08-exercises.html"):
        assert [one.get_text() for one in read(page).select("h1")] == whose
    fruit = of_the_fruit(read)
    assert fruit["17 and 19"] == pytest.approx(grams("17 and 19"), abs=0.5)
    said, read = make(listed, lessons=["08"], section="A")
    assert [one.get_text() for one in read("lesson-08-key.html").select("h1")] == whose[:4]
    for alone in ("17", "17 and 19"):
        said, read = make(listed, lessons=["08"], students=[alone])
        assert len(read("lesson-08-key.html").select("h1")) == 1, "those named, and nobody else"


def test_larger_print_and_lessons_excused_from(make):
    listed = "number,name,section,larger print,excused\n17,Ana Doe,A,yes,\n18,Bo Doe,A,,02; 5\n19,Cy Doe,A,,\n"
    said, read = make(listed, lessons=["02", "03"], sheets=True)
    assert said[0] == "Lesson 02: 1 of the list excused, no pages for them."
    pages = {one.h1.get_text()[:2]: one["class"] for one in read("lesson-02-exercises.html").select("table.student")}
    assert {who: "larger" in looks for who, looks in pages.items()} == {"17": True, "19": False}
    assert {row["number"] for row in read("lesson-02-key.csv")} == {"17", "19"}
    assert len(read("lesson-03-exercises.html").select("table.student")) == 3
    _said, read = make(listed, students=["ana doe and cy doe"], sheets=True)
    (page,) = read("lesson-02-exercises.html").select("table.student")
    assert page.h1.get_text() == "17 and 19 · Ana Doe, Cy Doe" and "larger" in page["class"]


def test_the_class_s_own_exercises_have_a_key_and_a_faulty_one_is_named(make, own_workbook):
    datasets, examples = own_workbook / "datasets", files.folder() / "examples"
    datasets.mkdir()
    rows = (examples / "own_exercises.csv").read_text(encoding="utf-8")
    (datasets / "own_exercises.csv").write_text(rows.replace("02.larkmoor-bowls", "12.bowls"), encoding="utf-8")
    values = (examples / "exercise_values.csv").read_text(encoding="utf-8")
    values = values.replace("02,02.larkmoor-bowls", "12,12.bowls")
    (datasets / "exercise_values.csv").write_text(values, encoding="utf-8")
    _said, read = make(None, lessons=[])
    (row,) = read("lesson-12-key.csv")
    assert (row["exercise"], row["answer"]) == ("12.bowls", "3"), "11.5 kg in bowls of 4.5 kg"
    (datasets / "own_exercises.csv").write_text(rows.replace("round up(", "round off("), encoding="utf-8")
    said, _read = make(None)
    assert sum("an exercise of your own is missing: You gave own_exercises.csv" in one for one in said) == 1
