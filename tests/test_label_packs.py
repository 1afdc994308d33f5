"""Packs as a shop has them, invented (label_packs.csv): none may be refused, and the water found is what such a thing holds.

low, high of the sheet: its water in 100 g, common practice, no source. Figures, rounding and words as such packs have them.
"""

import csv
from pathlib import Path

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade.labels.label import Label, label_of, made_of

with (Path(__file__).parent / "label_packs.csv").open(encoding="utf-8", newline="") as sheet:
    PACKS = [(float(row.pop("low")), float(row.pop("high")), label_of(row)) for row in csv.DictReader(sheet)]


@pytest.mark.parametrize(
    ("low", "high", "pack"), PACKS, ids=[f"{pack.kind}: {pack.contents[:30]}" for *_, pack in PACKS]
)
def test_a_pack_as_a_shop_has_it_is_read_and_its_water_is_what_such_a_thing_holds(low, high, pack):
    made = made_of(pack)
    least, most = made.ends["water"]
    assert least <= high and most >= low


@pytest.mark.parametrize(
    ("kind", "contents", "missing"),
    [
        ("milk", "water, oats", "milk"),
        ("milk chocolate", "cocoa butter, rice, sugar", "milk"),
        ("dark chocolate", "sugar, milk", "cocoa"),
    ],
)
def test_a_list_that_does_not_name_its_kind_is_refused(kind, contents, missing):
    with pytest.raises(StudentError, match=f"without {missing}"):
        made_of(Label(kind, fat="30", carbohydrate="40", sugars="30", protein="5", contents=contents))
