"""Numbers in the prose of lesson 02 that no compared cell prints: they say what functions and tables say."""

import json
from pathlib import Path

import pytest

from pastrylab.ground import datasets
from pastrylab.trade import chocolate

LESSONS = Path(__file__).resolve().parents[2] / "lessons"


def cells(name):
    """A page's texts by cell, each on one line."""
    found = json.loads((LESSONS / name).read_text("utf-8"))["cells"]
    return {cell["id"]: " ".join("".join(cell["source"]).split()) for cell in found}


TEMPER, HOLD = cells("02-tempering.ipynb"), cells("02b-hold-and-read.ipynb")


def both(degrees):
    """As a page writes it, by plain arithmetic: tenths where they count."""
    return f"{degrees:g} °C ({round(1.8 * degrees + 32, 1):g} °F)"


@pytest.mark.parametrize(
    ("page", "cell", "words"),
    [
        (TEMPER, "caution", "at 45-50 °C (113-122 °F)"),
        (TEMPER, "crystals", "about 31 °C (88 °F) it is a matter of time, above about " + both(32.5)),
        (TEMPER, "why", "a kilogram of it takes 157 kJ"),
        (TEMPER, "why", "holds 39.6 % of it, so a kilogram takes 0.396 × 157 = 62 kJ"),
        (TEMPER, "why", "46 kJ for dark and 44 for milk chocolate: leaner ones, of about 29 %"),  # 46 / 157 = 0.293
        (TEMPER, "worked", "2 × 1.59 × 13.5 = 42.9 kJ"),
        (TEMPER, "worked", "1.59 × 11.5 + 0.9 × 62.17 = 74.2 kJ"),
        (TEMPER, "worked", "42.9 / 74.2 = 0.578 kg"),
        (TEMPER, "worked-back", "(2 × 45 + 0.5 × 20) / 2.5 = 40 °C"),
        (TEMPER, "wrong-why", "a third of the melt: the bowl came to 30 °C (86 °F)"),  # the compared cell says 30.1 °C
        (TEMPER, "recap", "Above 34 °C (93 °F) dark"),
        (TEMPER, "recap", "milk and white lose it lower, above about " + both(32.5)),
        (TEMPER, "paper-prelab", "0.9 × 62 ="),
        (TEMPER, "own", "Melt 230 g"),
        (TEMPER, "own", "the other 70 g"),
        (TEMPER, "own", "stop at 32 °C (90 °F)"),
        (HOLD, "caution", "at 45-50 °C (113-122 °F)"),
        (HOLD, "holding", "Every quarter of an hour** smear"),
        (HOLD, "topping", "every few minutes"),
        (HOLD, "topping", "at 32 °C (90 °F)"),
        (HOLD, "topping", "2 × 1 / 13 = 0.154 kg"),
        (HOLD, "worked-overnight", "241 + 313 = 554 minutes, 9.2 hours"),
        (HOLD, "recap", "Past 34 °C (93 °F), dark,"),
        (HOLD, "recap", "milk and white past about " + both(32.5)),
    ],
)
def test_what_the_pages_say(page, cell, words):
    assert words in page[cell]


def test_those_numbers_are_those_of_functions_and_tables():
    melt, _, work = chocolate.band_floats("dark")
    assert melt == (45, 50) and work[1] == 32
    assert [chocolate.crystals_stand_to(kind)[1] for kind in chocolate.KINDS] == [34, 32.5, 32.5]
    assert datasets.ingredients()["dark couverture 64 %"]["cocoa_butter"] == pytest.approx(0.396)
    assert (chocolate.COCOA_BUTTER_LATENT, *chocolate.LATENT_HEAT.values()) == (157, 46, 44, 44)
    assert 2 * 1.59 * 13.5 == pytest.approx(42.9, abs=0.05)
    assert 1.59 * 11.5 + 0.9 * 62.17 == pytest.approx(74.2, abs=0.1)
    assert 42.9 / 74.2 == pytest.approx(0.578, abs=5e-4)
    assert 2.68 * 90 == pytest.approx(241, abs=0.5) and 39.1 / 0.125 == pytest.approx(313, abs=0.5)
    assert (241 + 313) / 60 == pytest.approx(9.2, abs=0.05)


def test_the_pages_name_no_other_limit_for_temper():
    everything = " ".join((*TEMPER.values(), *HOLD.values()))
    for stale in ("34.5", "32.5 °C (90.5 °F)?", "94 °F)", "two thirds", "33.9 °C"):
        assert stale not in everything, stale
