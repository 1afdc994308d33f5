"""Numbers in the prose of lesson 02 that no compared cell prints: they say what functions and tables say."""

import json
from pathlib import Path

import pytest

from pastrylab.ground import datasets
from pastrylab.trade import chocolate

PATH = Path(__file__).resolve().parents[2] / "lessons" / "02-tempering.ipynb"
CELLS = {cell["id"]: " ".join("".join(cell["source"]).split()) for cell in json.loads(PATH.read_text("utf-8"))["cells"]}


def both(degrees):
    """As a page writes it, by plain arithmetic: tenths where they count."""
    return f"{degrees:g} °C ({round(1.8 * degrees + 32, 1):g} °F)"


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("caution", "at 45-50 °C (113-122 °F)"),
        ("why", "cocoa butter takes 157 kJ"),
        ("why", "holds 39.6 % of it, which makes 62 kJ a kilogram"),  # 157 x 0.396 = 62.2
        ("why", "46 kJ for dark and 44 for milk chocolate: leaner ones, of about 29 %"),  # 46 / 157 = 0.293
        ("worked", "2 × 1.59 × 13.5 = 42.9 kJ"),
        ("worked", "1.59 × 11.5 + 0.9 × 62.2 = 74.2 kJ"),
        ("worked", "42.9 / 74.2 = 0.578 kg"),
        ("holding", "Every quarter of an hour** smear"),
        ("topping", "every few minutes"),
        ("topping", "at 32 °C (90 °F)"),
        ("recap", "Above 34 °C (93 °F) dark"),
        ("recap", "milk and white lose it lower, above about " + both(32.5)),
        ("paper-prelab", "0.9 × 62 ="),
        ("own", "Melt 230 g"),
        ("own", "the other 70 g"),
        ("own", "stop at 32 °C (90 °F)"),
    ],
)
def test_what_the_page_says(cell, words):
    assert words in CELLS[cell]


def test_those_numbers_are_those_of_functions_and_tables():
    melt, _, work = chocolate.band_floats("dark")
    assert melt == (45, 50) and work[1] == 32
    assert [chocolate.crystals_stand_to(kind)[1] for kind in chocolate.KINDS] == [34, 32.5, 32.5]
    assert datasets.ingredients().loc["dark couverture 64 %", "cocoa_butter"] == pytest.approx(0.396)
    assert (chocolate.COCOA_BUTTER_LATENT, *chocolate.LATENT_HEAT.values()) == (157, 46, 44, 44)
    assert 2 * 1.59 * 13.5 == pytest.approx(42.9, abs=0.05)
    assert 1.59 * 11.5 + 0.9 * 62.2 == pytest.approx(74.2, abs=0.1)
    assert 42.9 / 74.2 == pytest.approx(0.578, abs=5e-4)


def test_the_page_names_no_other_limit_for_temper():
    everything = " ".join(CELLS.values())
    for stale in ("34.5", "32.5 °C (90.5 °F)?", "94 °F)", "two thirds", "33.9 °C"):
        assert stale not in everything, stale
