"""A row of own_exercises.csv is the exercise that the same sums in Python make: answers, slips, verdicts, solutions."""

import csv
import io
import math
import re

import pytest
from depth import depth

from pastrylab import benches, exercises
from pastrylab.course import catalogue
from pastrylab.ground.files import folder
from pastrylab.ground.units import StudentError
from pastrylab.school import answers, checking, engine, exercise_values
from pastrylab.school.engine import Exercise, Slip
from pastrylab.school.typed import cells, fit, rows

pytestmark = pytest.mark.usefixtures("undrawn")

EXAMPLES = folder() / "examples"
BY_ROW = rows.survey(EXAMPLES / "own_exercises.csv")
VALUES = exercise_values.values(EXAMPLES / "exercise_values.csv")
STUDENTS = ["", *(f"student {i}" for i in range(depth(60, 200)))]

# The three examples once more, written by hand in Python.
IN_PYTHON = {
    e.id: e
    for e in (
        Exercise(
            id="02.larkmoor-bowls",
            title="Bowls for an order",
            prompt=BY_ROW.exercises["02.larkmoor-bowls"].prompt,
            answer=lambda g: math.ceil(round((g.chocolate / g.bowl).m_as(""), 9)),
            kind="number",
            resolution=0.01,
            because="a bowl is filled or it is not",
            sane=(1, 20),
            hint="Divide, then round the way a kitchen must.",
            slips=(
                Slip(
                    "rounded down",
                    lambda g: math.floor(round((g.chocolate / g.bowl).m_as(""), 9)),
                    "The rest of {chocolate} needs a bowl too.",
                ),
                Slip(
                    "not rounded",
                    lambda g: (g.chocolate / g.bowl).m_as(""),
                    "You cannot fill part of a bowl. Round up.",
                ),
            ),
            lets={"exact": lambda g: (g.chocolate / g.bowl).m_as("")},
            steps=("Exact: {chocolate:kg} ÷ {bowl:kg} = {exact:n}.", "Round up({exact:n}) = {answer:n}."),
        ),
        Exercise(
            id="03.larkmoor-filling",
            title="Filling for each bonbon",
            prompt=BY_ROW.exercises["03.larkmoor-filling"].prompt,
            answer=lambda g: (g.couverture + g.cream) * (1 - g.lost.m_as("")) / g.pieces,
            unit="g",
            resolution=0.05,
            because="the fine scale shows tenths of a gram",
            sane=(5, 25),
            hint="What is in the bag, less what stays behind in the bowl and the bag, is shared out.",
            slips=(
                Slip(
                    "loss forgotten",
                    lambda g: (g.couverture + g.cream) / g.pieces,
                    "That shares out the whole ganache. {lost} of it never reaches a bonbon.",
                ),
                Slip(
                    "cream forgotten",
                    lambda g: g.couverture * (1 - g.lost.m_as("")) / g.pieces,
                    "That is the couverture alone. The {cream} of cream fill bonbons too.",
                ),
                Slip(
                    "only what is lost",
                    lambda g: (g.couverture + g.cream) * g.lost.m_as("") / g.pieces,
                    "That is what each bonbon loses. Asked is what it gets.",
                ),
            ),
            lets={
                "all": lambda g: g.couverture + g.cream,
                "left": lambda g: g.all * (1 - g.lost.m_as("")),
            },
            steps=(
                "All: {couverture:g} + {cream:g} = {all:g}.",
                "Left: {all:g} × (1 − {lost:%}) = {left:g}.",
                "{left:g} ÷ {pieces:n} = {answer:g}.",
            ),
        ),
        Exercise(
            id="08.larkmoor-cream",
            title="The cream of a batch",
            prompt=BY_ROW.exercises["08.larkmoor-cream"].prompt,
            answer=lambda g: g.price * (g.used / g.carton).m_as(""),
            kind="money",
            resolution=0.01,
            because="a cent is the smallest coin",
            sane=(0.5, 20),
            hint="First what 1 mL costs, or which part of the carton you use.",
            slips=(
                Slip(
                    "the whole carton",
                    lambda g: g.price,
                    "That is the whole carton. The batch takes {used} of {carton}.",
                ),
                Slip(
                    "upside down",
                    lambda g: g.price * (g.carton / g.used).m_as(""),
                    "You multiplied by the carton and divided by what you use. Less cream costs less than {price}, not more.",
                ),
            ),
            steps=("{price:n} ÷ {carton:L} × {used:mL} = {answer:n}.",),
        ),
    )
}


@pytest.mark.parametrize("which", IN_PYTHON)
def test_a_row_is_what_the_same_exercise_in_python_is(which):
    row, python = BY_ROW.exercises[which], IN_PYTHON[which]
    assert (row.kind, row.unit, row.sane, row.title) == (python.kind, python.unit, python.sane, python.title)
    for student in STUDENTS:
        typed, written = (engine.case(e, student, VALUES) for e in (row, python))
        assert float(typed.expected) == pytest.approx(float(written.expected), rel=1e-12)
        assert [slip.name for slip, _ in typed.wrong] == [slip.name for slip, _ in written.wrong]
        for (_, mine), (_, theirs) in zip(typed.wrong, written.wrong, strict=True):
            assert float(mine) == pytest.approx(float(theirs), rel=1e-12)
        assert (typed.prompt, typed.hint, typed.answer) == (written.prompt, written.hint, written.answer)
        assert typed.solution == written.solution
        some = student in STUDENTS[:30]
        for answer in some * (typed.answer.split(" (")[0], "7", "12 g", "$3", *(str(float(w)) for _, w in typed.wrong)):
            assert typed.verdict(answer) == written.verdict(answer), answer
    assert fit.problems(row, VALUES) == [] and checking.problems(row, VALUES, 200) == []


def test_class_answers_by_hand():
    for which, right, slips in (
        ("02.larkmoor-bowls", "3", {"2": "rounded down", "2.556": "not rounded"}),  # 11.5 / 4.5 = 2.5556
        (
            "03.larkmoor-filling",  # 1000 × 0.94 / 80 = 11.75
            "11.75 g",
            {"12.5 g": "loss forgotten", "7.05 g": "cream forgotten", "0.75 g": "only what is lost"},
        ),
        ("08.larkmoor-cream", "$2.24", {"$6.40": "the whole carton", "18.29": "upside down"}),  # 6.40 × 0.35
    ):
        exercise = BY_ROW.exercises[which]
        assert engine.grade(exercise, right, values=VALUES).right
        for typed, name in slips.items():
            assert engine.grade(exercise, typed, values=VALUES).slip == name
    filling = BY_ROW.exercises["03.larkmoor-filling"]
    assert engine.grade(filling, "0.4145 oz", values=VALUES).right
    assert engine.grade(filling, "11.75 mL", values=VALUES).status == "unit"


# --- a row as people type it ------------------------------------------------------------------------------------------

SOUND = {
    "exercise": "02.mine",
    "title": "Mine",
    "question": "How much of {all} is in one of {pieces} pieces?",
    "answer": "all / pieces",
    "unit": "g",
    "tolerance": "1 g",
    "hint": "Divide {all}.",
    "slip 1": "all of it = all",
    "slip 1 says": "Share out {all}.",
}
OWN_VALUES = """lesson,exercise,given,value,unit,low,high,step
02,02.mine,all,2,kg,1,3,0.5
02,02.mine,pieces,40,,30,50,5
"""


def sheet(**changed):
    row = SOUND | {name.replace("_", " "): cell for name, cell in changed.items()}
    out = io.StringIO()
    writer = csv.DictWriter(out, list(row))
    writer.writeheader()
    writer.writerow(row)
    return out.getvalue()


FAULTS = [
    ({"exercise": "mine"}, "exercise", "two digits"),
    ({"exercise": "02.My Own"}, "exercise", "small letters"),
    ({"exercise": "2.mine"}, "exercise", "two digits"),
    ({"title": ""}, "title", "a word"),
    ({"title": "{all.__class__}"}, "title", "name of a given"),
    ({"question": "Of {all how much?"}, "question", "braces in pairs"),
    ({"question": "Of {all.units} how much?"}, "question", "name of a given"),
    ({"question": "Of {all!r} how much?"}, "question", "name of a given"),
    ({"question": "Of {all:>99999999} how much?"}, "question", "name of a given"),
    ({"question": "Of {} how much?"}, "question", "name of a given"),
    ({"question": "Is it {answer}?"}, "question", "not the answer"),
    ({"hint": "It is {answer}."}, "hint", "not the answer"),
    ({"question": "x" * 2000}, "question", "at most 1500"),
    ({"answer": "all / "}, "answer", "behind every sign"),
    ({"answer": "__import__('os')"}, "answer", "numbers, names of givens"),
    ({"answer": "#NAME?"}, "answer", "without = in front"),
    ({"unit": "potatoes"}, "unit", "unit of the kitchen"),
    ({"tolerance": "0 g"}, "tolerance", "more than 0"),
    ({"tolerance": "-1 g"}, "tolerance", "more than 0|sign"),
    ({"tolerance": "1 mL"}, "tolerance", "a mass"),
    ({"tolerance": "a bit"}, "tolerance", "number"),
    ({"lowest": "9 g", "highest": "5 g"}, "lowest", "below"),
    ({"highest": "5 min"}, "highest", "a mass"),
    ({"limit": "never"}, "limit", "most, least"),
    ({"sums": "all / pieces"}, "sums", "a name, then ="),
    ({"sums": "each one = all / pieces"}, "sums", "one word"),
    ({"sums": "x" * 41 + " = all / pieces"}, "sums", "one word"),
    ({"sums": "a = 1; a = 2"}, "sums", "another name"),
    ({"sums": "answer = all"}, "sums", "another name"),
    ({"sums": "a = all +"}, "sums", "behind every sign"),
    ({"slip_1": "all of it"}, "slip 1", "a name, then ="),
    ({"slip_1": "all of it = all ** all"}, "slip 1", "whole number"),
    ({"slip_1_says": ""}, "slip 1", "both cells empty"),
    ({"slip_1_says": "Share out {all}, {"}, "slip 1 says", "braces in pairs"),
]


@pytest.mark.parametrize("changed, column, says", FAULTS, ids=range(len(FAULTS)))
def test_a_row_at_fault_says_row_column_and_what_to_type(changed, column, says):
    found = rows.survey(sheet(**changed))
    assert found.exercises == {} and len(found.faults) == 1
    said = str(found.faults[0][1])
    if column in ("answer", "unit", "sums", "slip 1"):  # columns are counted by hand from SOUND
        assert "cell " + {"answer": "D2", "unit": "E2", "sums": "J2", "slip 1": "H2"}[column] in said or "alone" in said
    assert "own_exercises.csv, row 2" in said and column in said and "Needed: " in said
    assert re.search(says, said), said


ONLY_WITH_VALUES = [
    ({"answer": "al / pieces"}, r"column 'answer' \(cell \w\d\): 'al', which is no given .* one of all, pieces"),
    ({"unit": "min"}, r"column 'answer' \(cell \w\d\): a formula that gives a mass, with min in the column 'unit'"),
    ({"unit": ""}, "gives a mass, with a plain number"),
    ({"answer": "all + pieces"}, r"column 'answer' \(cell \w\d\): 'all \+ pieces', which is a mass \+ a plain number"),
    ({"answer": "all / (pieces - 40)"}, r"division by nothing: \(pieces - 40\) is 0"),
    ({"slip_1": "too many = pieces"}, r"column 'slip 1' \(cell \w\d\): a formula that gives a plain number"),
    ({"slip_1": "too many = piece"}, r"column 'slip 1' \(cell \w\d\): 'piece', which is no given"),
    ({"question": "How much is in one of {pieces}?"}, "does not name the given 'all'"),
    ({"hint": "Divide {al}."}, r"column 'hint': \{al\}"),
    ({"slip_1_says": "Share out {total}."}, r"the sentence of the slip 'all of it': \{total\}"),
    ({"sums": "all = 2 kg"}, "a given has that name already"),
    ({"sums": "each = later / 2; later = all"}, "column 'sums' .*, each: 'later', which is no given"),
]


@pytest.mark.parametrize("changed, says", ONLY_WITH_VALUES, ids=range(len(ONLY_WITH_VALUES)))
def test_what_only_the_values_show_is_said_by_column(changed, says):
    sound = {"tolerance": "1"} if changed.get("unit") in ("", "min") else {}
    (exercise,) = rows.survey(sheet(**sound, **changed)).exercises.values()
    (said,) = fit.problems(exercise, OWN_VALUES)
    assert re.search(says, said), said


def test_a_sheet_of_a_spreadsheet_with_decimal_commas():
    table = list(csv.reader((EXAMPLES / "own_exercises.csv").read_text(encoding="utf-8").splitlines()))
    commas = [[c.replace("0.05 g", "0,05 g").replace(" / ", " ÷ ").replace(" * ", " × ") for c in r] for r in table]
    out = io.StringIO()
    csv.writer(out, delimiter=";").writerows(commas)
    found = rows.survey(out.getvalue().encode("cp1252"))
    assert found.faults == () and found.exercises["03.larkmoor-filling"].resolution == 0.05
    assert fit.problems(found.exercises["03.larkmoor-filling"], VALUES) == []


def test_a_given_without_a_row_and_a_row_at_fault_beside_a_sound_one():
    text = sheet() + "\n".join(sheet(exercise="02.other", unit="potatoes").splitlines()[1:]) + "\n"
    found = rows.survey(text)
    assert list(found.exercises) == ["02.mine"] and [which for which, _ in found.faults] == ["02.other"]
    lacking = OWN_VALUES.replace("02,02.mine,pieces,40,,30,50,5\n", "")
    assert "'pieces', which is no given" in fit.problems(found.exercises["02.mine"], lacking)[0]


@pytest.mark.parametrize(
    "unit, kind",
    [
        ("°F", ("reading", "degF")),
        ("Δ°F", ("difference", "degF")),
        ("$", ("money", "")),
        ("EUR", ("money", "")),
        ("percent", ("share", "")),
        ("pieces", ("number", "")),
        ("minutes", ("quantity", "min")),
    ],
)
def test_the_unit_cell_says_what_is_asked(unit, kind):
    assert cells.asked(unit) == kind


def test_sums_are_parted_outside_of_brackets_alone():
    assert cells.sums("a = min(x; y); b = (a + 1) * 2\nc = b") == [("a", "min(x; y)"), ("b", "(a + 1) * 2"), ("c", "b")]
    assert cells.sums("a = (all; b = 2") == [("a", "(all; b = 2")]  # left open: the formula's refusal says so
    assert cells.sums("a = all); b = 2") == [("a", "all)"), ("b", "2")]
    for half in ("= all", "each =", "each"):
        with pytest.raises(StudentError, match="a name, then ="):
            cells.sums(half)


def test_tolerances_as_typed():
    assert cells.amount("0,5 °C", "reading", "degC", step=True) == 0.5
    assert cells.amount("0.9 °F", "reading", "degC", step=True) == pytest.approx(0.5)
    assert cells.amount("50 °F", "reading", "degC") == pytest.approx(10)
    assert cells.amount("2", "share", "") == 0.02 and cells.amount("2 %", "share", "") == 0.02
    assert cells.amount("5 g", "quantity", "kg") == 0.005
    assert cells.amount("2 pieces", "number", "") == 2
    with pytest.raises(StudentError):
        cells.amount("2 g", "number", "")


READINGS = """lesson,exercise,given,value,unit,low,high,step
02,02.mine,bowl,45,degC,43,47,1
02,02.mine,room,20,degC,18,22,1
"""


def test_a_reading_a_difference_a_share_and_a_limit():
    asks = {"question": "From {bowl} to {room}?", "slip_1": "", "slip_1_says": "", "tolerance": "0.5", "hint": "Cool."}
    fall = rows.survey(sheet(**asks, answer="bowl − room", unit="Δ°C")).exercises["02.mine"]
    assert engine.grade(fall, "25 °C", values=READINGS).right and engine.grade(fall, "45 °F", values=READINGS).right
    middle = rows.survey(sheet(**asks, answer="room + (bowl − room) / 2", unit="°C")).exercises["02.mine"]
    assert (
        engine.grade(middle, "32.5 °C", values=READINGS).right
        and engine.grade(middle, "90.5 °F", values=READINGS).right
    )
    part = rows.survey(sheet(**asks, answer="(bowl − room) / (5 × (bowl − room))", unit="%")).exercises["02.mine"]
    assert engine.grade(part, "20 %", values=READINGS).right and engine.grade(part, "0.2", values=READINGS).right
    steps = rows.survey(sheet(**asks | {"tolerance": "0.9 °F"}, answer="room", unit="°C")).exercises["02.mine"]
    assert steps.resolution == pytest.approx(0.5)  # 0.9 steps of Fahrenheit, not 0.9 °F as a reading
    wrong = rows.survey(sheet(**asks, answer="bowl − room", unit="°C")).exercises["02.mine"]
    assert "a difference of temperatures" in fit.problems(wrong, READINGS)[0]
    most = rows.survey(sheet(limit="most")).exercises["02.mine"]
    assert engine.grade(most, "50 g", values=OWN_VALUES).right
    assert (
        not engine.grade(most, "50.4 g", values=OWN_VALUES).right
        and engine.grade(most, "49.6 g", values=OWN_VALUES).right
    )


def test_what_makes_no_sense_at_a_bench_is_refused_where_no_limits_are_typed():
    less = rows.survey(sheet(answer="all − 5 kg")).exercises["02.mine"]
    assert (
        "the answer -3000 g (-106 oz) is absurd (sensible: 0 g (0 oz) or more)"
        in checking.problems(less, OWN_VALUES, 2)[0]
    )
    nothing = rows.survey(sheet(answer="all − 2 kg")).exercises["02.mine"]
    assert not checking.problems(nothing, OWN_VALUES.replace("1,3,0.5", "2,3,0.5"), 2)
    bare = {"unit": "", "tolerance": "1", "slip_1": "", "slip_1_says": ""}
    cold = rows.survey(sheet(**bare, answer="(all − 5 kg) / 1 kg")).exercises["02.mine"]
    assert not checking.problems(cold, OWN_VALUES, 2), "a plain number may lie below nothing"
    few = rows.survey(sheet(answer="all / (pieces − 30)")).exercises["02.mine"]
    assert "every given at its 'low' in exercise_values.csv" in fit.problems(few, OWN_VALUES)[0]  # 30 − 30
    many = rows.survey(sheet(highest="59 g")).exercises["02.mine"]  # 3 kg / 50 = 60 g, 1 kg / 30 = 33 g
    (said,) = fit.problems(many, OWN_VALUES)
    assert "at its 'high'" in said and "60 g" in said
    dear = rows.survey(sheet(**bare | {"unit": "money"}, answer="all / 1 kg × $3", highest="4")).exercises["02.mine"]
    assert "absurd" in checking.problems(dear, OWN_VALUES, 2)[0]


# --- in force ---------------------------------------------------------------------------------------------------------


@pytest.fixture
def in_force(own_workbook):
    """A workbook whose class has the three examples of its own."""
    datasets = own_workbook / "datasets"
    datasets.mkdir()
    (datasets / "own_exercises.csv").write_bytes((EXAMPLES / "own_exercises.csv").read_bytes())
    theirs = (folder() / "exercise_values.csv").read_text(encoding="utf-8")
    ours = (EXAMPLES / "exercise_values.csv").read_text(encoding="utf-8").split("\n", 1)[1]
    (datasets / "exercise_values.csv").write_text(theirs + ours, encoding="utf-8")
    return datasets


def test_in_force_it_is_an_exercise_like_the_others(in_force):
    assert catalogue.exercise("02.larkmoor-bowls").title == "Bowls for an order"
    assert catalogue.of_lesson("02")[-1].id == "02.larkmoor-bowls" and set(IN_PYTHON) < set(catalogue.EXERCISES)
    assert exercises.grade("03.larkmoor-filling", "11.75 g").right
    assert exercises.key().loc["08.larkmoor-cream", "answer"] == "$2.24"
    assert exercises.check(students=3) == []
    card = benches.exercise("02.larkmoor-bowls")
    card.box.value = "3"
    card.grade()
    assert "Right" in card.verdict.value and "2.5556" not in card.worked.value
    card.show_solution()
    assert "11.5 kg ÷ 4.5 kg = 2.5556" in card.worked.value and "a bowl is filled or it is not" in card.worked.value
    assert [c.exercise.id for c in benches.own_exercises("02").cards] == ["02.larkmoor-bowls"]
    assert benches.own_exercises("05") is None
    below = benches.with_own_exercises(benches.exercise("02.seed-for-a-bowl"))
    assert [c.exercise.id for c in below.children] == ["02.seed-for-a-bowl", "02.larkmoor-bowls"]
    alone = benches.exercise("05.highest-reading")
    assert benches.with_own_exercises(alone) is alone, "nothing stands empty where there are none"
    (kept,) = answers.folder().glob("02.jsonl")
    assert "02.larkmoor-bowls" in kept.read_text(encoding="utf-8")


def test_faults_in_force_are_listed_at_once_and_stop_no_other(in_force):
    path = in_force / "own_exercises.csv"
    text = (
        path.read_text(encoding="utf-8").replace("round up(exact)", "round up(exact").replace("left / pieces", "left")
    )
    path.write_text(text.replace("08.larkmoor-cream", "08.as-purchased"), encoding="utf-8")
    found = "\n".join(exercises.check(students=3))
    assert "row 2, column 'answer' (cell E2): 'round up(exact', with a bracket left open" in found
    assert "08.as-purchased, an exercise there is already" in found
    assert "03.larkmoor-filling: the answer 940 g" in found and "sensible: 5 g" in found
    with pytest.raises(StudentError, match="a bracket left open"):
        catalogue.exercise("02.larkmoor-bowls")
    told = benches.own_exercises("02").children[-1].value
    assert "Tell your instructor" in told and "bracket left open" in told
    assert catalogue.exercise("02.seed-for-a-bowl").lesson == "02"
    path.write_text("exercise;titel\n", encoding="utf-8")
    assert any("own_exercises.csv, row 1: no column" in problem for problem in exercises.check(students=1))
    assert catalogue.of_lesson("02")


def test_what_is_typed_is_escaped_on_the_page(in_force):
    path = in_force / "own_exercises.csv"
    path.write_text(
        path.read_text(encoding="utf-8").replace("Your bowl", "<script>x</script> Your bowl"), encoding="utf-8"
    )
    card = benches.exercise("02.larkmoor-bowls")
    assert "<script>" not in card.text.value and "&lt;script&gt;" in card.text.value


def test_a_lesson_of_ones_own(in_force):
    path, values = in_force / "own_exercises.csv", in_force / "exercise_values.csv"
    for sheet_ in (path, values):
        sheet_.write_text(sheet_.read_text(encoding="utf-8").replace("02.larkmoor", "21.larkmoor"), encoding="utf-8")
    assert [e.id for e in catalogue.of_lesson("21")] == ["21.larkmoor-bowls"]
    assert exercises.grade("21.larkmoor-bowls", "3").right and benches.hand_in("21") is not None
    with pytest.raises(StudentError, match="as a lesson"):
        catalogue.of_lesson("22")
