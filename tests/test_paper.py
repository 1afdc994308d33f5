"""Sheets to print: what stands on them, who, and what is refused."""

import re

import pytest
from bs4 import BeautifulSoup

from pastrylab.desk import commands, lesson_text, paper
from pastrylab.ground import mark_tables
from pastrylab.ground.units import StudentError
from pastrylab.page.drawings import DEFECTS
from pastrylab.school import sheets

LESSONS = sorted(lesson_text.lesson_files())
WITH_SHEETS = [number for number in LESSONS if number != "00"]
CLASS = """number,name,section
017,"<script>alert(1)</script>",A
18,"=HYPERLINK(""x"")",A
3,Ana,B
"""


def read(path):
    return BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser")


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    folder = tmp_path_factory.mktemp("paper")
    (folder / "class.csv").write_text(CLASS, encoding="utf-8")
    said = paper.paper_of((), folder, folder / "class.csv", "2026-10-05; 12 Oct 2026", "2")
    return folder, said


def test_every_lesson_has_its_sheets_and_they_are_named(printed):
    folder, said = printed
    assert LESSONS == ["00", "01", "02", "02b", "03", "04", "05", "06", "07", "08", "09"]
    for path in folder.glob("*.html"):
        assert any(path.name in one for one in said)
    for number in WITH_SHEETS:
        for name in ("on-paper-before-the-lab", "rubric-grid", "lab-sheets"):
            assert (folder / f"{number}-{name}.html").is_file(), name
    assert (folder / "03-weigh-sheet.html").is_file()
    # No pieces come out of weighing, or of a price.
    assert {path.name[:2] for path in folder.glob("*-pieces.html")} == {"02", "03", "04", "05", "06", "07", "09"}


@pytest.mark.parametrize("number", WITH_SHEETS)
def test_a_sheet_stands_alone_with_all_its_questions_and_lines_to_write_on(number, printed):
    page = read(printed[0] / f"{number}-on-paper-before-the-lab.html")
    (sheet,) = [one for one in lesson_text.lesson(number).sheets if "before the lab" in one.heading]
    assert len(page.select("ol > li")) == len(re.findall(r"^\d\. ", sheet.text, re.MULTILINE)) >= 5
    assert len(page.select(".blank")) == len(re.findall("_{3,}", sheet.text))
    assert "___" not in page.get_text() and not page.select("details") and len(page.select("h1")) == 1


def test_pictures_stand_in_the_page_itself(printed):
    for path in printed[0].glob("*.html"):
        for image in read(path).select("img"):
            assert image["src"].startswith("data:image/svg+xml;base64,") and image["alt"], path.name


@pytest.mark.parametrize("number", WITH_SHEETS)
def test_a_rubric_has_points_for_each_of_its_rows_and_they_add_up_to_100(number, printed):
    page = read(printed[0] / f"{number}-rubric-grid.html")
    heads = [head.get_text(" ") for head in page.select_one("table").select("thead th")]
    points = [re.search(r"([\d.]+) / ([\d.]+)$", head).groups() for head in heads[1:-1]]
    assert sum(float(whole) for _, whole in points) == 100
    assert all(0 < float(sound) < float(whole) for sound, whole in points)
    (sheet,) = [one for one in lesson_text.lesson(number).sheets if one.heading.startswith("Rubric")]
    rows = [line.split("|")[1].strip() for line in sheet.text.splitlines() if line.startswith("|")][2:]
    assert [head.rsplit(" ", 3)[0] for head in heads[1:-1]] == rows


def test_a_class_stands_by_section_and_a_name_is_only_a_name(printed):
    for name in ("02-rubric-grid.html", "attendance.html"):
        page = read(printed[0] / name)
        assert not page.select("script")
        assert [title.get_text().rsplit(" ", 1)[1] for title in page.select("h1")] == ["A", "B"]
        rows = [row.get_text(" ", strip=True) for row in page.select("tbody th")]
        assert rows == ["017 <script>alert(1)</script>", '18 =HYPERLINK("x")', "3 Ana"]
    assert [head.get_text() for head in page.select_one("table").select("thead th")] == ["student", "5 Oct", "12 Oct"]


def test_a_lab_sheet_has_caution_ticks_and_the_stages_of_cooling(printed):
    page = read(printed[0] / "03-lab-sheets.html")
    assert len(page.select(".page")) == 2
    words = " ".join(page.select(".page")[1].get_text(" ").split())
    assert "Lab sheet, bench 2" in words and "Cream, butter and puree spoil" in words and "Probe wiped" in words
    # FDA Food Code 3-501.14(A)
    for stage in ("57 °C (135 °F)", "21 °C (70 °F): within 2 h", "5 °C (41 °F): within 6 h"):
        assert stage in words
    assert "> " not in page.select_one(".careful").get_text()


def test_pieces_are_marked_by_what_the_lesson_draws():
    for number in LESSONS:
        drawn = lesson_text.pictured(lesson_text.lesson(number))
        assert drawn <= set(DEFECTS)
        for one in mark_tables.piece_marks(number):
            assert set(one["defects"]) <= set(DEFECTS), one["attribute"]
    shown = {img["alt"] for img in BeautifulSoup(_pieces("06"), "html.parser").select("img")}
    assert DEFECTS["foot"].alt in shown and DEFECTS["split"].alt not in shown


def _pieces(number):
    lesson = lesson_text.lesson(number)
    drawn = lesson_text.pictured(lesson)
    return str(paper.paper.pieces_page(number, lesson.title, mark_tables.piece_marks(number), drawn))


def test_larger_print_and_who_is_excused_are_as_the_class_list_says(tmp_path):
    roll = tmp_path / "class.csv"
    roll.write_text("number,name,excused,larger print\n1,Ana,2,\n2,Bo,,yes\n", encoding="utf-8")
    said = paper.paper_of(["02"], tmp_path, roll)
    small, large = (read(tmp_path / f"02-on-paper-before-the-lab{size}.html") for size in ("", "-larger"))
    assert large.select_one(".larger").get_text() == small.select_one(".pre-lab").get_text()
    assert not small.select(".larger") and any("-larger.html" in one for one in said)
    rows = [row.get_text(" ", strip=True) for row in read(tmp_path / "02-rubric-grid.html").select("tbody tr")]
    assert rows == ["1 Ana excused from this lesson", "2 Bo NSP NSP NSP NSP"]


def test_groups_of_the_list_have_lab_sheets_with_their_names(tmp_path):
    roll = tmp_path / "class.csv"
    rows = "17,Ana,A,18,\n18,Bo,A,,\n19,Cy,A,20,2\n20,Di,A,,02\n21,Ed,B,22,\n22,Flo,B,,\n"
    roll.write_text(f"number,name,section,works with,excused\n{rows}", encoding="utf-8")
    paper.class_sheets_of("02", tmp_path, roll, "2")
    sheets = read(tmp_path / "02-lab-sheets.html")
    assert [one.get_text() for one in sheets.select("h1")] == [
        f"Lab sheet, bench {bench}, section {section}" for section in "AB" for bench in (1, 2)
    ]
    assert [one.get_text() for one in sheets.select("h1 ~ p b")] == ["17 and 18 Ana, Bo", "21 and 22 Ed, Flo"]


def test_without_a_list_there_are_rows_to_write_in(tmp_path):
    paper.class_sheets_of("02", tmp_path)
    paper.attendance(tmp_path)
    for name in ("02-rubric-grid.html", "attendance.html"):
        assert len(read(tmp_path / name).select("tbody tr")) == 20


@pytest.mark.parametrize(
    ("does", "says"),
    [
        (lambda out: paper.sheets_of("12", out), "'12' as a lesson"),
        (lambda out: paper.sheets_of("../02", out), "as a lesson"),
        (lambda out: paper.class_sheets_of("02", out, benches="0"), "0 benches"),
        (lambda out: paper.class_sheets_of("02", out, benches="six"), "six benches"),
        (lambda out: paper.class_sheets_of("02", out, benches="1e3"), "1e3 benches"),
        (lambda out: paper.class_sheets_of("02", out, benches="41"), "41 benches"),
        (lambda out: paper.class_sheets_of("02", out, out / "none.csv"), "none.csv"),
        (lambda out: paper.attendance(out, None, "tomorrow"), "tomorrow"),
        (lambda out: paper.attendance(out, None, "04/05/2026"), "two ways"),
        (lambda out: paper.attendance(out, None, "2026-10-05;" * 121), "121 dates"),
        (lambda out: paper.sheets_of("02", out / "file" / "deeper"), "cannot be written to"),
    ],
)
def test_what_will_not_do_is_said(does, says, tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StudentError, match=re.escape(says)):
        does(tmp_path)


@pytest.mark.parametrize("number", ["2", "02", " 02b", "2b", "9"])
def test_a_lesson_is_known_however_its_number_is_typed(number):
    assert lesson_text.lesson(number).number in ("02", "02b", "09")


def test_points_that_do_not_add_up_and_rows_without_points_are_said(own_workbook):
    (own_workbook / "datasets").mkdir()
    sheet = own_workbook / "datasets" / "rubrics.csv"
    rows = "lesson,what,sound,professional\n2,melt-out,15,20\n2,seeding,22,30\n2,smear,22,30\n2,bench,15,{}\n"
    text = "| what | not yet |\n|---|---|\n| melt-out | x |\n| tasting | y |\n"
    lesson = lesson_text.Lesson("02", own_workbook, "t", "", ())
    for last, says in (("21", "add up to 101"), ("10", "15 points for sound"), ("20", "no points for 'tasting'")):
        sheet.write_text(rows.format(last), encoding="utf-8")
        with pytest.raises(StudentError, match=says):
            paper._points(lesson, lesson_text.Sheet("02", "Rubric", text))


def test_check_reads_the_points_and_says_what_is_wrong(own_workbook):
    (own_workbook / "datasets").mkdir()
    sheet = own_workbook / "datasets" / "rubrics.csv"
    for rows, says in (
        ("02,smear,75,101", "row 2, column 'professional'"),
        ("02,smear,75,99", "add up to 99"),
        ("02,smear,80,50\n02,bench,10,50", "no more for sound"),
        ("02,smear,many,100", "many"),
        ("02,smear,75,100\n02,smear,75,100", "smear"),
    ):
        sheet.write_text(f"lesson,what,sound,professional\n{rows}\n", encoding="utf-8")
        found = [one for one in sheets.problems() if "rubrics.csv" in one]
        assert len(found) == 1 and says in found[0], found


def test_points_and_marks_may_be_few_or_without_a_defect(own_workbook):
    (own_workbook / "datasets").mkdir()
    rows = "lesson,what,sound,professional\n2,smear,0,0.5\n2,bench,0.5,99.5\n"
    (own_workbook / "datasets" / "rubrics.csv").write_text(rows, encoding="utf-8")
    rows = "attribute,lessons,five,three,one,defects\nlook,all,good,fair,poor,\n"
    (own_workbook / "datasets" / "piece_marks.csv").write_text(rows, encoding="utf-8")
    assert mark_tables.rubric_points("02") == {"smear": (0, 0.5), "bench": (0.5, 99.5)}
    assert mark_tables.piece_marks("08")[0]["defects"] == []


def test_the_command_writes_and_says_where(tmp_path, capsys):
    assert commands.main(["paper", "--lesson", "2", "8", "--out", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "02-pieces.html" in said and "attendance.html" in said and "08-pieces" not in said
    assert commands.main(["paper", "--lesson", "20", "--out", str(tmp_path)]) == 2
    assert "'20' as a lesson" in capsys.readouterr().err
