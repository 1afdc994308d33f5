"""The command: files a spreadsheet opens, a page that is read, and nothing in a name that starts a formula or a script."""

import csv
import html.parser

import pytest
from lines_handed_in import HONEY, line, right, zipped

from pastrylab.course.catalogue import EXERCISES
from pastrylab.desk import commands, marked
from pastrylab.ground.units import StudentError
from pastrylab.school import answers, exercise_values, handing_in, marking_rules, whose

EVIL = "<script>alert(1)</script>"


@pytest.fixture
def mark(hand_in, tmp_path, capsys):
    """mark(list, *more): (exit status, what was said, {file: rows})."""

    def run(roll, *more):
        (tmp_path / "list.csv").write_text(roll, encoding="utf-8")
        out = tmp_path / "marks"
        status = commands.main(
            ["mark", str(hand_in.folder), "--class", str(tmp_path / "list.csv"), "--out", str(out), *more]
        )
        said = capsys.readouterr()
        sheets = {}
        for path in out.glob("*.csv"):
            assert path.read_bytes().startswith(b"\xef\xbb\xbf")
            sheets[path.stem] = list(csv.DictReader(path.read_text(encoding="utf-8-sig").splitlines()))
        return status, said.out + said.err, sheets

    return run


def test_a_class_from_the_hand_ins_to_the_gradebook(hand_in, mark, tmp_path):
    hand_in("17.zip", zipped({"my-answers/01.jsonl": line("17", right("17"))}))
    for number in ("18", "19"):
        slip = "360 g"  # 08.as-purchased in the class's values: the loss forgotten
        lines = [line("", slip, f"2026-10-05T10:0{m}:0{number[1]}+00:00", "08.as-purchased") for m in "123"]
        hand_in(f"number-{number}/08.jsonl", *lines[:1], line(number, "5 lb", "2026-10-05T11:00:00+00:00", HONEY))
    status, said, sheets = mark("number,name,section\n017,Ana,A\n18,Bo,B\n19,Cy,B\n20,Di,B\n")
    assert status == 0 and "3 hand-ins of 3 students marked; 1 of the list handed in nothing." in said
    assert [one["number"] for one in sheets["flags"]] == ["20"] and "Nothing else to look at" in said, "20 was counted"
    ana, bo, _cy, di = sheets["gradebook"]
    assert (ana["number"], ana["name"], ana["lesson 01 right"], ana["points"]) == ("017", "Ana", "1", "1"), (
        "as the list writes it"
    )
    assert (bo["lesson 08 right"], bo["points"], di["points"]) == ("0", "0", "0")
    row = next(one for one in sheets["lessons"] if one["number"] == "017" and one["lesson"] == "lesson 01")
    of = sum(which.startswith("01.") for which in EXERCISES)
    wanted = {"right": "1", "tried": "1", "of": str(of), "tries": "1", "first right": "1", "late": "0"}
    assert wanted.items() <= row.items()
    page = (tmp_path / "marks" / "class.html").read_text(encoding="utf-8")
    assert "the loss forgotten" in page and "2 of 2" in page and "3 of 4 students" in page
    assert "Ana" not in page, "names stay in the gradebook"
    assert [one["what to look at"] for one in sheets["flags"] if one["number"] == "20"] == ["nothing handed in"]


def test_a_lesson_that_there_is_not_excuses_nobody_without_a_word(hand_in, mark):
    hand_in("17.zip", zipped({"my-answers/01.jsonl": line("17", right("17"))}))
    _status, _said, sheets = mark("number,excused\n17,05; 77\n")
    assert [(f["number"], f["what to look at"]) for f in sheets["flags"]] == [
        ("17", "excused from lesson 77, which there is not")
    ]


def test_names_start_no_formula_and_no_script(hand_in, mark, tmp_path):
    hand_in(f"{EVIL.replace('/', '_')}/01.jsonl", line('=HYPERLINK("x")', "1 g"))
    hand_in("17/01.jsonl", line("17", "\ud800 9 g".encode("utf-8", "replace").decode()), '{"when": "=1+1"}')
    hand_in("@SUM(1)/01.jsonl", line("+1+1", "1 g"))
    _status, said, sheets = mark(f'number,name,section\n17,"=cmd|x",{EVIL}\n18,-2+3,"\t=1"\n')
    assert f"\n{len([one for one in sheets['flags'] if one['number'] != '18'])} things to look at" in said
    for path in (tmp_path / "marks").glob("*.csv"):
        for row in csv.reader(path.read_text(encoding="utf-8-sig").splitlines()):
            assert not [cell for cell in row if cell.strip()[:1] in tuple("=+-@\t")], path
    tags = []
    parser = html.parser.HTMLParser()
    parser.handle_starttag = lambda tag, attrs: tags.append(tag)
    parser.feed((tmp_path / "marks" / "class.html").read_text(encoding="utf-8"))
    assert "script" not in tags and "table" in tags


def test_values_of_before_count_when_they_are_named(hand_in, mark, tmp_path):
    older = exercise_values.values().moved("high")
    answers = {"01.jsonl": line("", right("", value=2), values=older.id), f"values/{older.id}.csv": older.to_csv()}
    hand_in("number-17.zip", zipped(answers))
    _status, said, sheets = mark("number\n17\n")
    assert sheets["gradebook"][0]["points"] == "0" and f"Values {older.id} came with 1 hand-ins" in said
    kept = tmp_path / "marks" / "values" / f"{older.id}.csv"
    assert mark("number\n17\n", "--values", str(kept))[2]["gradebook"][0]["points"] == "1"
    assert mark("number\n17\n", "--values", str(kept.parent))[2]["gradebook"][0]["points"] == "1"


def test_rules_of_ones_own(hand_in, mark, tmp_path):
    hand_in("17/01.jsonl", line("17", right("17")))
    rules = tmp_path / "mine.csv"
    rules.write_text(
        "lesson,due,right_first,right_later,after_solution,off_a_day,last_day\n1,,7,0,0,0,\n", encoding="utf-8"
    )
    assert mark("number\n17\n", "--rules", str(rules))[2]["gradebook"][0]["points"] == "7"
    rules.write_text(rules.read_text(encoding="utf-8").replace("\n1,", "\n2,"), encoding="utf-8")
    sheets = mark("number\n17\n", "--rules", str(rules))[2]
    row = sheets["lessons"][0]
    assert (row["right"], row["late"], row["points"]) == ("1", "0", "0")
    assert [flag["where"] for flag in sheets["flags"]] == ["lesson 01"]


def test_a_lesson_has_one_row_however_its_number_is_written(tmp_path):
    heads = "lesson,due,right_first,right_later,after_solution,off_a_day,last_day\n"
    (tmp_path / "mine.csv").write_text(f"{heads}08,,1,1,1,0,\n8,,2,1,1,0,\n", encoding="utf-8")
    with pytest.raises(StudentError, match="mine.csv, row 3: lesson 08 a second time"):
        marking_rules.rules(tmp_path / "mine.csv")


@pytest.mark.parametrize(
    ("roll", "more", "says"),
    [
        ("name\nAna\n", (), "no column with the numbers"),
        ("number\n17\n", ("--values", "no-such.csv"), "no-such.csv"),
        ("number\n17\n", ("--rules", "no-such.csv"), "no-such.csv"),
        ("number\n17\n", ("--term-start", "soon"), "first day of the term"),
        ("number\n17\n", ("--term-start", "2099-09-01"), "2099-09-01, which has not come yet"),
    ],
)
def test_what_is_wrong_is_said_in_a_sentence(hand_in, mark, roll, more, says):
    hand_in("17/01.jsonl", line("17", right("17")))
    status, said, _ = mark(roll, *more)
    assert status == 2 and says in said and "Traceback" not in said


def test_an_empty_folder_is_said(mark):
    status, said, _ = mark("number\n17\n")
    assert status == 2 and "no answers in it" in said


def test_the_zip_of_a_lessons_last_card_is_marked(hand_in, mark, own_workbook):
    answers.record("01", HONEY, right(""))
    answers.record("01", HONEY, "9 g", "ana")
    whose.set_student("ana")
    handed = handing_in.hand_in("01", "017", "A")
    hand_in(f"download/{handed.path.name}", handed.data)
    _status, _said, sheets = mark("number,name,section\n17,Ana,A\n27,Bo,A\n")
    assert [row["points"] for row in sheets["gradebook"]] == ["1", "0"]


def test_how_far_it_is_is_told(hand_in, tmp_path):
    for number in ("17", "18"):
        hand_in(f"{number}/01.jsonl", line(number, right(number)))
    (tmp_path / "list.csv").write_text("number\n17\n18\n", encoding="utf-8")
    told = []
    marked.mark_folder(hand_in.folder, tmp_path / "list.csv", tmp_path / "marks", progress=told.append)
    assert told[0] == "Reading: 1 hand-ins" and told[-1] == "Marking: ########## 1 of 1 exercises"
