"""The judgements of lessons 01, 02 and 06: one right option for every draw, each way it can come out, in words of its own.

The right option is found again here by plain arithmetic on the numbers of the file.
"""

import itertools
from fractions import Fraction

import pytest
from depth import depth

from pastrylab.course.catalogue import EXERCISES, grade
from pastrylab.ground.units import StudentError
from pastrylab.school import draws, engine, exercise_values

pytestmark = pytest.mark.usefixtures("one_look")


def weigh_again(slip, couverture, gelatin, allowed, **_):
    over = [Fraction(str(slip)) / Fraction(str(part)) > Fraction(str(allowed)) / 100 for part in (couverture, gelatin)]
    return {(0, 0): "leave both", (0, 1): "the gelatin", (1, 0): "the couverture", (1, 1): "both"}[
        tuple(map(int, over))
    ]


def what_now(bowl_at, **_):
    """A probe good to half a degree; the widest working band ends at 32.4, crystals stand to 33.8 and go above 34."""
    return "work on" if bowl_at <= 32.9 else "smear, stir down" if bowl_at <= 34.5 else "seed again"


def the_ninth_mould(bowl, fills, full, shells, rest):
    """What the last mould must find, and what is there; whole grams all of them."""
    for_the_last = bowl - rest - (fills - 1) * shells
    return "enough" if for_the_last >= full else "top it up" if for_the_last >= shells else "too small"


ORACLES = {"01.a-slip-of-the-hand": weigh_again, "02.what-now": what_now, "06.the-ninth-mould": the_ninth_mould}
NEVER = {
    "01.a-slip-of-the-hand": {"the couverture"},
    "02.what-now": {"too much seed"},
    "06.the-ninth-mould": {"smaller moulds"},
}


def corner_values(exercise):
    """A values file for every mixture of lowest and highest values."""
    names = list(exercise_values.values().of(exercise))
    for ends in itertools.product(("low", "high"), repeat=len(names)):
        end = dict(zip(names, ends, strict=True))
        yield exercise_values.values().moved(lambda x, n, g, end=end: getattr(g, end[n]) if x == exercise else g.value)


def prove(exercise, student, values, aloud=True):
    rows = values.of(exercise.id)
    numbers = {name: round(draws.draw(exercise.id, name, row, student), 9) for name, row in rows.items()}
    worked = engine.case(exercise, student, values)
    assert worked.expected == ORACLES[exercise.id](**numbers), numbers
    if not aloud:
        return worked.expected
    verdicts = {option.name: worked.verdict(option.name) for option in exercise.options}
    assert [name for name, verdict in verdicts.items() if verdict.right] == [worked.expected]
    assert len({worked.fill(option.text) for option in exercise.options}) == len(exercise.options)
    for name, verdict in verdicts.items():
        option = next(o for o in exercise.options if o.name == name)
        said = option.when_right if verdict.right else option.says
        assert worked.fill(said).strip() in verdict.message and len(verdict.message) > 30, (name, numbers)
    return worked.expected


@pytest.mark.parametrize("name", ORACLES)
def test_one_option_is_right_for_every_corner_and_whole_classes(name):
    exercise = EXERCISES[name]
    found = {prove(exercise, str(number), exercise_values.values(), number < 50) for number in range(depth(120, 1000))}
    found |= {prove(exercise, "", values) for values in corner_values(name)}
    options = {option.name for option in exercise.options}
    assert found == options - NEVER[name], "every option comes out, but those that say why not"
    assert {o.name for o in exercise.options if not o.when_right} == NEVER[name]


def test_a_cold_bowl_is_not_set_as_a_judgement_about_warm_ones():
    text = exercise_values.values().to_csv().replace("02.what-now,bowl_at,35,", "02.what-now,bowl_at,29,")
    text = text.replace("31.8,36.6,1.6", "29,36,1")
    with pytest.raises(StudentError, match="temperatures that rise"):
        grade(EXERCISES["02.what-now"], "A", "", text)


def test_pounds_and_ounces_are_not_accused_of_a_decimal_point():
    verdict = grade(EXERCISES["01.pounds-and-ounces"], "1 lb 3 oz")
    assert not verdict.right and "You wrote" not in verdict.message and "2.6 lb" in verdict.message


def test_the_smallest_pile_is_whichever_it_is():
    """Cream 190 g is the smallest pile here; the formula asks for 40 g of it, less than of anything: 4.75 times 590 g."""
    text = exercise_values.values().to_csv().replace("cream_held,750,g,700,900,25", "cream_held,190,g,190,900,10")
    text = text.replace("cream,300,g,280,320,10", "cream,40,g,40,320,10")
    worked = engine.case(EXERCISES["01.what-runs-out-first"], "", text)
    assert dict((slip.name, wrong) for slip, wrong in worked.wrong)["fewest grams"] == pytest.approx(590 * 4.75)
    assert "cream" in worked.fill(worked.exercise.slips[0].says)


@pytest.mark.parametrize(
    ("bowl_at", "right"),
    [(32.9, "work on"), (33, "smear, stir down"), (34.5, "smear, stir down"), (34.6, "seed again")],
)
def test_half_a_degree_of_the_probe_is_taken_against_the_bowl(bowl_at, right):
    name = "02.what-now"
    values = exercise_values.values().moved(lambda x, n, g: bowl_at if (x, n) == (name, "bowl_at") else g.value)
    worked = engine.case(EXERCISES[name], "", values)
    assert worked.expected == what_now(bowl_at) == right
    assert "good to 0.5 °C" in worked.prompt


@pytest.mark.parametrize(
    ("bowl", "right", "said"),
    [
        (1026, "enough", "a ladle still finds 240 g"),
        (1025, "top it up", "9 moulds can be cast; before mould 10 a ladle finds 239 g"),
        (930, "top it up", "8 moulds can be cast; before mould 9 a ladle finds 218 g"),
        (860, "top it up", "7 moulds can be cast; before mould 8 a ladle finds 222 g"),
        (859, "too small", "The shells keep 740 g in all, and 120 g stays behind. The bowl holds 859 g."),
    ],
)
def test_a_gram_decides_whether_the_bowl_lasts(bowl, right, said):
    """Ten moulds of 240 g, 74 g of shells each, a dead rest of 120 g: 9 x 74 + 240 + 120 = 1026, 740 + 120 = 860."""
    name = "06.the-ninth-mould"
    values = exercise_values.values().moved(lambda x, n, g: bowl if (x, n) == (name, "bowl") else g.value)
    worked = engine.case(EXERCISES[name], "", values)
    assert worked.expected == right
    assert said in worked.verdict(right).message
