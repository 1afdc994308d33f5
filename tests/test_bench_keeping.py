"""The boxes of lessons 04 and 05: what people type is read or refused in a sentence, and the caution stands once."""

import re

import pytest

from pastrylab.course.keeping import benches
from pastrylab.course.sugars.benches import refractometer_card
from pastrylab.ground.units import StudentError
from pastrylab.page.formula.box import FormulaBox
from pastrylab.trade import keeping

pytestmark = pytest.mark.usefixtures("undrawn")


def said(html):
    return re.sub(r"<[^>]+>", " ", html)


# --- the refractometer card -------------------------------------------------------------------------------------------


def card(**typed):
    made = refractometer_card()
    start = {"sucrose": "700 g", "syrup": "982 g", "inverted": "85 %", "reading": "73.5"}
    for name, text in {**start, "reading_error": "0.5", "scale_error": "2 g", **typed}.items():
        made.boxes[name].value = text
    made.read()
    return said(made.said.value)


@pytest.mark.parametrize(
    "text", ["73 %", "73 °Bx", "73 Brix", "73 brix", "73 ° Brix", "73Bx", "73,0", "73 degrees Brix"]
)
def test_brix_is_read_however_it_is_written(text):
    assert "it shows 73.0 ± 0.5" in card(reading=text)


def test_the_share_inverted_is_explained_beside_its_share_of_the_syrup():
    # 700 g, 85 % inverted: 700 x 0.85 x 1.05263 = 626.3 g of 982 g, 64 g in 100.
    text = card()
    assert "85 % of its sugar inverted" in text and "64 g in every 100 g of syrup are invert sugar" in text


@pytest.mark.parametrize(
    ("name", "text", "named"),
    [
        ("reading", "", "The refractometer shows"),
        ("sucrose", " ", "Sugar weighed in"),
        ("inverted", "85", "85 %"),
        ("inverted", "85 g", "Inverted"),
        ("syrup", "982", "982 g"),
        ("reading", "73 g", "degrees Brix"),
        ("reading", "lots", "number"),
    ],
)
def test_what_a_box_cannot_hold_is_said_with_its_name(name, text, named):
    with pytest.raises(StudentError, match=named):
        card(**{name: text})


# --- a reading beside an estimate -------------------------------------------------------------------------------------


def reading(**typed):
    made = benches.reading_bench()
    for name, text in typed.items():
        made.boxes[name].value = text
    made.refresh()
    return said(made.said.value)


def test_a_decimal_comma_and_a_percentage_are_read():
    point = reading(reading="0.87", over_salt="0.760", error="0.02", room="22 °C", dissolved="50 %")
    comma = reading(reading="0,87", over_salt="76 %", error="0,02", room="71.6 °F", dissolved="0.5")
    assert point == comma and "reads 0.007 too high" in point


@pytest.mark.parametrize(
    ("name", "text"),
    [("reading", "87"), ("reading", "-0.2"), ("reading", "1.4"), ("error", "0.5"), ("room", "22"), ("room", "80 °C")]
    + [("dissolved", "180 %"), ("over_salt", ""), ("reading", "0.87 g"), ("error", "a little")],
)
def test_what_is_out_of_range_is_said_and_never_clamped(name, text):
    with pytest.raises(StudentError):
        reading(**{name: text})


def test_sorbitol_and_glycerol_by_their_ingredients_are_no_unnamed_polyols():
    made = benches.reading_bench()
    made.filling.value = benches._OWN
    made.formula.value = "heavy cream 36 %: 100 g\nsorbitol powder: 20 g"
    made.refresh()
    assert "the estimate is" in said(made.said.value)
    made.formula.value += "\nglycerol: 5 g"
    made.refresh()
    assert "the estimate is" in said(made.said.value)


def test_a_meter_that_reads_true_is_not_corrected():
    # Salt at 22 degC: 0.7532; 0.753 is as near as a meter shows.
    text = reading(reading="0.920", over_salt="0.753")
    assert "reads true" in text and "The meter shows 0.920" in text


def test_the_caution_stands_once_on_each_bench_and_short_in_each_sentence():
    for bench in (benches.ganache_bench(), benches.fruit_bench(), benches.meter_bench()):
        sentence = bench.figure.alt
        assert keeping.CAUTION not in sentence and sentence.endswith(keeping.IN_SHORT)
        everything = " ".join(said(w.value) for w in flat(bench) if isinstance(getattr(w, "value", None), str))
        assert everything.count(keeping.CAUTION) == 1


def flat(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from flat(child)


@pytest.mark.parametrize(
    "formula", ["granulated sugar: 100 g", "sorbitol powder: 9 g\nglycerol: 9 g\nhoney: 30 g", "", "honey"]
)
def test_no_refusal_of_a_formula_shows_a_call(formula):
    made = benches.reading_bench()
    made.filling.value, made.formula.value = benches._OWN, formula
    with pytest.raises(StudentError) as refused:
        made.refresh()
    assert not re.search(r'[{}="()]', str(refused.value))


def test_the_formula_of_the_box_goes_into_the_reading(own_workbook):
    made = benches.reading_bench()
    made.filling.value = made.filling.options[-1]
    assert made.formula.value == ""  # no box was used
    FormulaBox().put("honey 40 g\nbutter 2 x 10 g")
    made = benches.reading_bench()
    made.filling.value = made.filling.options[-1]
    assert made.formula.value == "honey: 40 g\nbutter unsalted: 20 g"
