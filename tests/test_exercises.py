"""Every exercise proved in both directions: right answers pass, slips and unit trouble each get their own sentence."""

import ast
import inspect
import itertools
import random
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from depth import depth
from hypothesis import given, settings
from hypothesis import strategies as st

from pastrylab.course import catalogue as exercises
from pastrylab.course.catalogue import EXERCISES, grade
from pastrylab.ground.units import Q, Quantity, StudentError, symbol
from pastrylab.school import checking, draws, engine, exercise_values
from pastrylab.school.engine import Exercise, Slip

VALUES = exercise_values.values()
NUMERIC = [e for e in EXERCISES.values() if e.kind not in ("choice", "money")]
CHOICES = [e for e in EXERCISES.values() if e.kind == "choice"]
STUDENTS = ["", *(f"student {i}" for i in range(depth(60, 1000)))]
MOST = depth(0.8, 0.9)  # of few students, a few more may by chance draw what a slip cannot be told from
SOME = STUDENTS[: depth(4, 12)]
SETS = {"class": VALUES, "low": VALUES.moved("low"), "high": VALUES.moved("high")}

pytestmark = [pytest.mark.filterwarnings("error"), pytest.mark.usefixtures("one_look")]


def by_id(e):
    return e.id


def expected_of(e, student="", values=None):
    return engine.case(e, student, values).expected


def typed(number, unit):
    return f"{number:.7f} {unit}".strip()


def three_ways(e, expected):
    """The right answer as three students would write it."""
    if e.kind == "share":
        return [typed(100 * expected, "%"), typed(expected, ""), f"{100 * expected:.6f} percent"]
    if e.kind == "number":
        return [typed(expected, ""), f"{expected:.9f}", f"{expected:.7f}:1" if expected > 0 else typed(expected, "")]
    asked = e.how.unit
    units = e.how.alike or (e.unit,)
    ways = [typed(float(Quantity(expected, asked).to(u).magnitude), u) for u in units]
    ways += [
        typed(expected, " " + symbol(asked)),
        typed(expected, symbol(asked).replace("°", "deg ")).replace(".", ",", 1),
    ]
    return ways


@pytest.mark.parametrize("e", NUMERIC, ids=by_id)
@pytest.mark.parametrize("values", SETS.values(), ids=SETS)
def test_right_answer_passes_in_every_unit(e, values):
    for student in SOME:
        expected = expected_of(e, student, values)
        for way in three_ways(e, expected):
            assert grade(e, way, student, values).status == "right", (way, expected, student)


@pytest.mark.parametrize("e", NUMERIC, ids=by_id)
def test_right_answers_pass_and_slips_fail_for_whole_classes(e):
    met = dict.fromkeys((slip.name for slip in e.slips), 0)
    for student, times in first_of_each_draw(e).items():
        worked = engine.case(e, student)
        assert e.sane[0] <= worked.expected <= e.sane[1]
        assert worked.verdict(three_ways(e, worked.expected)[0]).right, student
        for name in prove_slips(worked):
            met[name] += times
    for name, times in met.items():
        assert times >= MOST * len(STUDENTS), f"slip '{name}' stands apart for {times} of {len(STUDENTS)} students only"


def first_of_each_draw(e):
    """The students whose values nobody before them has, with how many have them: the others' cases are the same."""
    first, many = {}, Counter()
    for student in STUDENTS:
        values = tuple(draws.draw(e.id, name, row, student) for name, row in VALUES.of(e.id).items())
        many[first.setdefault(values, student)] += 1
    return many


def prove_slips(worked):
    """Names of the slips that stand apart from the right answer and the other slips; each is proved to be named."""
    e, proved = worked.exercise, []
    for slip, wrong in worked.wrong:
        apart = e.how.tolerance(worked.expected, 1e-7)
        others = [worked.expected, *(w for s, w in worked.wrong if s is not slip)]
        if any(abs(wrong - other) <= apart for other in others):
            continue
        answer = typed(100 * wrong, "%") if e.kind == "share" else typed(wrong, "" if e.kind == "number" else e.unit)
        verdict = worked.verdict(answer)
        assert (verdict.status, verdict.slip) == ("wrong", slip.name), (answer, verdict)
        assert verdict.message == worked.fill(slip.says)
        proved.append(slip.name)
    return proved


@pytest.mark.parametrize("e", NUMERIC, ids=by_id)
@pytest.mark.parametrize("values", [SETS["low"], SETS["high"]], ids=["low", "high"])
def test_slips_follow_the_values(e, values):
    prove_slips(engine.case(e, "", values))


@pytest.mark.parametrize("e", EXERCISES.values(), ids=by_id)
def test_has_two_slips_a_hint_and_a_reason_for_its_tolerance(e):
    assert len(e.slips) >= 2 or (e.kind == "choice" and len(e.options) >= 3)
    assert e.hint and e.title and len(e.steps) >= 2
    if e.kind != "choice":
        assert e.because and e.resolution > 0
        assert len({slip.says for slip in e.slips}) == len(e.slips)


@pytest.mark.parametrize("e", NUMERIC, ids=by_id)
def test_unit_trouble_has_its_own_message(e):
    expected = expected_of(e)
    messages = {}
    wrong_kind = "mL" if "mass" in str(Q(1, e.how.unit).dimensionality) else "kg"
    if e.kind == "quantity":
        messages["missing"] = grade(e, typed(expected, ""))
    messages["unknown"] = grade(e, typed(expected, "zorks"))
    messages["kind"] = grade(e, typed(expected * 1.5, wrong_kind))
    messages["fits"] = grade(e, typed(expected, wrong_kind)) if e.kind == "quantity" else messages["kind"]
    for name, verdict in messages.items():
        assert verdict.status == ("unreadable" if name == "unknown" else "unit"), (name, verdict)
    assert len({v.message for v in messages.values()}) == len({id(v) for v in messages.values()})
    if e.kind == "quantity":
        assert "The number fits" in messages["fits"].message


@pytest.mark.parametrize("e", [e for e in NUMERIC if e.kind == "quantity"], ids=by_id)
def test_right_number_wrong_unit_and_right_size_wrong_unit(e):
    expected, asked = expected_of(e), e.how.unit
    for unit in e.how.alike:
        if symbol(unit) == symbol(asked):
            continue
        verdict = grade(e, typed(expected, unit))
        assert not verdict.right and "number is right" in verdict.message, (unit, verdict)
        there = float(Quantity(expected, asked).to(unit).magnitude)
        mislabelled = grade(e, typed(there, asked))
        assert not mislabelled.right, (unit, mislabelled)
        if not mislabelled.slip and "1000" not in mislabelled.message:
            assert "size is right" in mislabelled.message, (unit, mislabelled)


@pytest.mark.parametrize("e", [e for e in NUMERIC if e.kind in ("quantity", "share")], ids=by_id)
def test_out_by_a_factor(e):
    expected, factor = expected_of(e), 100 if e.kind == "share" else 1000
    for times in (factor, 1 / factor):
        number = expected * times
        verdict = grade(e, typed(100 * number, "%") if e.kind == "share" else typed(number, e.unit))
        if number * times < 1e9 and not verdict.slip:
            assert not verdict.right
            named = str(factor) in verdict.message or "size is right" in verdict.message
            assert named or verdict.status == "unit", verdict


@pytest.mark.parametrize("e", CHOICES, ids=by_id)
def test_a_judgement_knows_right_from_wrong(e):
    for student in SOME:
        g = draws.givens(e, student)
        right = e.answer(g)
        for i, option in enumerate(e.options):
            for answer in ("ABCDEFGH"[i], f" {'abcdefgh'[i]} ", option.name, draws.fill(option.text, g)):
                verdict = grade(e, answer, student)
                assert verdict.right == (option.name == right), (answer, verdict)
                if not verdict.right:
                    assert verdict.slip == option.name and verdict.message
    assert grade(e, "Z").status == "unreadable"
    assert grade(e, "").status == "unreadable"


@pytest.mark.parametrize("e", EXERCISES.values(), ids=by_id)
@settings(max_examples=depth(8, 30))
@given(text=st.one_of(st.text(max_size=80), st.from_regex(r"[-+]?[0-9., /]{0,9} ?[a-zA-Z°%$/]{0,8}", fullmatch=True)))
def test_any_typed_text_gets_a_verdict(e, text):
    verdict = grade(e, text)
    assert verdict.status in ("right", "wrong", "unit", "unreadable") and verdict.message


@pytest.mark.parametrize("e", EXERCISES.values(), ids=by_id)
def test_prose_holds_no_typed_number_with_a_unit(e):
    unit = r"(kg|g|lb|oz|mL|L|cups?|°C|°F|degrees|min(utes)?|h(ours)?|%|per cent|kJ|mm|days?|dollars?)\b"
    prose = [e.prompt, e.hint, *e.steps, *(s.says for s in e.slips), *(o.text + o.says for o in e.options)]
    for text in prose:
        assert not re.search(rf"(?<![{{\w])\d+([.,]\d+)?\s?{unit}", text), text
        assert "$" not in text and not re.search(r"\d[.,]\d", text), text


@pytest.mark.parametrize("e", EXERCISES.values(), ids=by_id)
def test_one_changed_value_changes_text_answer_slips_key_and_solution(e):
    rows = VALUES.of(e.id)
    for name in rows:
        target = "high" if rows[name].value != rows[name].high else "low"
        moved = VALUES.moved(
            lambda x, n, g, name=name, to=target: getattr(g, to) if (x, n) == (e.id, name) else g.value
        )
        assert moved.id != VALUES.id
        cases = [engine.case(e, "", v) for v in (VALUES, moved)]
        texts = [(worked.prompt, str(worked.table), str(worked.options)) for worked in cases]
        assert texts[0] != texts[1], f"{name} is not on the page"
    # A number that stays the same everywhere when all values move would be stale.
    low, high = (engine.case(e, "", SETS[s]).solution for s in ("low", "high"))
    assert low != high


def test_key_lists_every_exercise_and_follows_the_values():
    key = exercises.key()
    assert list(key.index) == list(EXERCISES) and key["answer"].str.len().gt(0).all()
    assert (exercises.key(values=SETS["high"])["answer"] != key["answer"]).sum() >= len(NUMERIC) - 1
    assert (exercises.key("Ana")["givens"] != key["givens"]).any()


def test_the_values_in_the_file_can_be_set():
    assert exercises.check(students=40) == []


def test_draws_are_published_stable_and_untouched_by_a_new_exercise():
    given_ = exercise_values.Given(3, "kg", 1.5, 6, 0.5)
    # Worked by hand: SHA-256 of "02.seed-for-a-bowl|batch|ana", first 16 hexadecimal digits, modulo 10 steps.
    assert draws.draw("02.seed-for-a-bowl", "batch", given_, "Ana") == draws.draw(
        "02.seed-for-a-bowl", "batch", given_, "  ANA "
    )
    import hashlib

    k = int(hashlib.sha256(b"02.seed-for-a-bowl|batch|ana").hexdigest()[:16], 16) % 10
    assert draws.draw("02.seed-for-a-bowl", "batch", given_, "ana") == pytest.approx(1.5 + 0.5 * k)
    assert draws.draw("x", "y", given_, "Jose\u0301") == draws.draw("x", "y", given_, "jos\u00e9")
    assert draws.draw("x", "y", given_, "") == 3
    drawn = {draws.draw("x", "y", given_, f"s{i}") for i in range(400)}
    assert drawn == {1.5 + 0.5 * i for i in range(10)}


def toy(**changes):
    base = Exercise(
        id="02.heat-to-melt-out",
        title="t",
        prompt="{batch} {start} {end}",
        answer=lambda g: g.batch,
        unit="kg",
        resolution=0.01,
        because="b",
        hint="h",
        steps=("s", "t"),
        sane=(0.1, 100),
        slips=(Slip("double", lambda g: 2 * g.batch, "d"), Slip("triple", lambda g: 3 * g.batch, "t")),
    )
    return replace(base, **changes)


def test_check_refuses_coinciding_slips_absurd_answers_and_missing_givens():
    assert checking.problems(toy(), students=50) == []
    same = toy(slips=(Slip("same", lambda g: g.batch, "d"), Slip("triple", lambda g: 3 * g.batch, "t")))
    assert any("gives the same as the right answer" in p for p in checking.problems(same, students=50))
    twins = toy(slips=(Slip("one", lambda g: 2 * g.batch, "d"), Slip("two", lambda g: 2 * g.batch, "t")))
    assert any("'two' gives the same as one" in p for p in checking.problems(twins, students=50))
    assert any("absurd" in p for p in checking.problems(toy(sane=(0.1, 3)), students=50))
    assert any(
        "missing" in p or "without the given" in p for p in checking.problems(toy(prompt="{nothing}"), students=5)
    )


def test_check_names_rows_of_no_exercise(tmp_path):
    text = VALUES.to_csv() + "02,02.nothing,batch,1,kg,1,2,1\n"
    assert any("no exercise '02.nothing'" in p for p in exercises.check(text, students=1))


def test_unknown_exercise_is_a_student_error():
    with pytest.raises(StudentError, match="02.seed-for-a-bowl"):
        grade("02.nothing", "3 g")


def test_nothing_numeric_is_typed_twice_in_the_answer_functions():
    """Constants come from the package: exercise modules hold no physical constant of their own."""
    folder = Path(inspect.getfile(exercises)).parent
    for path in folder.glob("*.py"):
        if path.stem in ("__init__", "engine", "answers"):
            continue
        numbers = {
            node.value
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            if isinstance(node, ast.Constant) and isinstance(node.value, float)
        }
        assert not numbers & {1.59, 46.0, 44.0, 453.59237, 28.349523125, 236.5882365}, path.name


# --- read as meant ----------------------------------------------------------------------------------------------------

# Class values; the amounts themselves are worked by hand in the comments.
READ = [
    ("01.a-slip-of-the-hand", "C", "right", ""),
    ("01.a-slip-of-the-hand", "c)", "right", ""),
    ("01.a-slip-of-the-hand", "(c)", "right", ""),
    ("01.a-slip-of-the-hand", "(C) the gelatin", "right", ""),
    ("01.a-slip-of-the-hand", "C) the gelatin", "right", ""),
    ("01.a-slip-of-the-hand", "C. gelatin", "right", ""),
    ("01.a-slip-of-the-hand", "answer: c", "right", ""),
    ("01.a-slip-of-the-hand", "C: two grams are most of it", "right", ""),
    ("01.a-slip-of-the-hand", "Gelatin", "right", ""),
    ("01.a-slip-of-the-hand", "the gelatin.", "right", ""),
    ("01.a-slip-of-the-hand", "C) the couverture", "unreadable", "A, B, C, D"),
    ("01.a-slip-of-the-hand", "a gelatin", "unreadable", "A, B, C, D"),
    ("01.a-slip-of-the-hand", "CD", "unreadable", "A, B, C, D"),
    ("01.a-slip-of-the-hand", "C or D", "unreadable", "A, B, C, D"),
    ("01.a-slip-of-the-hand", "(h)", "unreadable", "A, B, C, D"),
    ("01.a-slip-of-the-hand", "()", "unreadable", "A, B, C, D"),
    # 2 kg and 900 g and 180 g on the shelf, what runs out first: the worked solution writes 2125 g (75 oz).
    ("01.what-runs-out-first", "2125 g (75 oz)", "right", ""),
    ("01.what-runs-out-first", "2125 g = 75 oz", "right", ""),
    ("01.what-runs-out-first", "about 2125 g", "right", ""),
    ("01.what-runs-out-first", "2.125 kg of ganache", "right", ""),
    ("01.what-runs-out-first", "4 lb 10.96 oz", "right", ""),
    ("01.what-runs-out-first", "2125 g (80 oz)", "unreadable", "two different amounts"),
    ("01.what-runs-out-first", "2.125 g", "unreadable", "2125 g or 2.1250 g"),
    ("01.what-runs-out-first", "2125 g or so less", "unreadable", "no unit known"),
    ("01.what-runs-out-first", "2.1 kg", "wrong", "rounded too far"),
    ("01.what-runs-out-first", "2 kg", "wrong", "rounded too far"),
    ("01.what-runs-out-first", "2100 g", "wrong", "rounded too far"),
    ("01.what-runs-out-first", "2.2 kg", "wrong", "too high"),
    ("01.what-runs-out-first", "2200 g", "wrong", "too high"),
    ("01.what-runs-out-first", "1 kg", "wrong", "too low"),
    ("01.what-runs-out-first", "-2.1 kg", "wrong", "too low"),
    ("01.what-runs-out-first", "0 kg", "wrong", "too low"),
    ("01.pounds-and-ounces", "about 437 g", "right", ""),
    ("01.pounds-and-ounces", "ca. 437 g", "right", ""),
    ("01.a-cup-of-honey", "254 g honey", "right", ""),
    ("01.a-cup-of-honey", "254 g of the honey", "right", ""),
    ("01.a-cup-of-honey", "254 honey", "unreadable", "no unit known"),
    ("08.break-even", "50 boxes", "right", ""),
    ("08.break-even", "about 50 boxes", "right", ""),
    ("08.break-even", "50", "right", ""),
    ("08.break-even", "50 zorks", "unreadable", "no unit known"),
    ("08.break-even", "50 g", "unit", "measures a mass"),
    ("05.days-without-mould", "3 weeks", "wrong", ""),
    ("03.water-of-the-whole", "22.8 % of the whole", "right", ""),
    ("03.water-of-the-whole", "20 %", "wrong", "rounded too far"),
    ("03.how-warm-the-cream", "34.1 C°", "right", ""),
    ("03.how-warm-the-cream", "93.3 F°", "right", ""),
    ("03.how-warm-the-cream", "34.1 °C (93.3 °F)", "right", ""),
    ("03.cooled-in-time", "1 h 5.6 min", "right", ""),
    ("03.cooled-in-time", "66 min", "right", ""),
]


@pytest.mark.parametrize(("id_", "text", "status", "says"), READ)
def test_an_answer_is_read_as_meant(id_, text, status, says):
    verdict = grade(id_, text)
    assert verdict.status == status and says in verdict.message, verdict


def test_words_behind_a_plain_number_are_those_of_the_exercise():
    loads = toy(
        kind="number",
        unit="",
        answer=lambda g: 3.0,
        title="Loads of a bowl",
        prompt="How many loads? {batch}",
        slips=(),
    )
    values = VALUES
    for text in ("3 loads", "3 load", "3 Bowls", "3"):
        assert engine.grade(loads, text, values=values).right, text
    for text in ("3 moulds", "3 loads of zorks", "3 less", "3 of"):
        assert engine.grade(loads, text, values=values).status == "unreadable", text


@pytest.mark.parametrize(
    ("right", "typed", "said"),
    [
        (1.4, "1", False),
        (1.2, "1", True),
        (0.6, "1", False),
        (96.3, "100", True),
        (80.5, "100", True),  # 19.5 / 80.5 = 0.242
        (79.5, "100", False),  # 20.5 / 79.5 = 0.258
        (96.3, "90", False),
        (2125, "2000", True),
    ],
)
def test_rounded_too_far_is_said_of_a_number_still_near(right, typed, said):
    # 1 for 1.4 is off by more than a quarter: whoever writes it may have worked out something else.
    loads = toy(kind="number", unit="", answer=lambda g: right, prompt="{batch}", slips=())
    assert ("rounded too far" in grade(loads, typed).message) == said


@pytest.mark.parametrize("e", [e for e in NUMERIC if e.limit], ids=by_id)
def test_a_limit_is_shown_such_that_what_is_shown_is_right(e):
    for student in STUDENTS[:200]:
        worked = engine.case(e, student)
        assert worked.verdict(worked.answer).right, worked.answer


# --- judgements over all their ground ---------------------------------------------------------------------------------


def corners(e):
    """The values of a judgement with every given at its lowest or highest, 64 of them at most, then students."""
    rows = VALUES.of(e.id)
    ends = list(itertools.product(("low", "high"), repeat=len(rows)))
    for chosen in random.Random(e.id).sample(ends, min(64, len(ends))):
        at = dict(zip(rows, chosen, strict=True))
        yield "", VALUES.moved(lambda x, n, g, at=at, id_=e.id: getattr(g, at[n]) if x == id_ else g.value)
    for i in range(depth(60, 500)):
        yield f"class {i}", None


@pytest.mark.parametrize("e", CHOICES, ids=by_id)
def test_a_judgement_has_one_right_option_wherever_its_values_lie_and_a_sentence_for_it(e):
    names = [option.name for option in e.options]
    assert len(set(names)) == len(names)
    silent = set()
    for student, values in corners(e):
        g = draws.givens(e, student, values)
        right = e.answer(g)
        assert names.count(right) == 1, (right, student)
        option = e.options[names.index(right)]
        if not draws.fill(option.when_right, g).strip():
            silent.add(right)
        for other in e.options:
            assert other is option or draws.fill(other.says or e.hint, g).strip(), (other.name, student)
    assert not silent, f"right, and nothing is said: {sorted(silent)}"
