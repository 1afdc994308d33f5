"""Orders as people write them, and what they take, by plain arithmetic from the rows of the CSV."""

import csv
import math
import time
from dataclasses import replace
from pathlib import Path

import pytest

from pastrylab.ground.errors import StudentError
from pastrylab.trade.orders import flavours, quantities, read_order, requisition, table
from pastrylab.trade.orders.day import Pace, lab_of, left_behind, steps_of
from pastrylab.trade.planning import Lab, Plan, make_plan

DATA = Path(__file__).parents[2] / "datasets"
READ = {
    "60 dark ganache": {"dark ganache": 60},
    "dark ganache 60": {"dark ganache": 60},
    "dark ganache: 60 pcs": {"dark ganache": 60},
    "60 × Dark Ganache": {"dark ganache": 60},
    "5 boxes of 12 raspberry": {"raspberry ganache": 60},
    "1 box of 24 dark ganache": {"dark ganache": 24},
    "3 dozen hazelnut": {"hazelnut praline": 36},
    "1/2 dozen dark ganache": {"dark ganache": 6},
    "hazelnut praline;48": {"hazelnut praline": 48},
    "- 24 raspberry ganache": {"raspberry ganache": 24},
    "60\tdark ganache": {"dark ganache": 60},
    "# Friday\n\n24 dark ganache\n24 dark ganache": {"dark ganache": 48},
}
ASKED = {
    "": "an empty order",
    "dark ganache": "no flavour with a number",
    "60": "no flavour with a number",
    "60 ganache": "which of them",
    "60 pistachio": "one that the kitchen makes",
    "0 dark ganache": "whole number",
    "-5 dark ganache": "no flavour with a number",
    "2.5 hazelnut": "whole number",
    "60 g dark ganache": "for a flavour",
    "1,000 dark ganache": "two ways",
    "2 boxes of 12": "for a flavour",
    "10**6 dark": "no flavour with a number",
    "600000 dark ganache\n600000 hazelnut": "at most 1000000",
}


@pytest.mark.parametrize("text, found", READ.items())
def test_an_order_is_read_as_a_person_writes_it(text, found):
    assert read_order(text) == found


@pytest.mark.parametrize("text, words", ASKED.items())
def test_what_is_no_order_is_asked_about(text, words):
    with pytest.raises(StudentError) as refused:
        read_order(text)
    assert words in str(refused.value)


def rows(name):
    with open(DATA / name, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize(
    "pieces, rejects, name", [(300, 0.2, "hazelnut praline"), (96, 0.0, "dark ganache"), (7, 0.5, "raspberry ganache")]
)
def test_moulds_shells_and_fillings_by_plain_arithmetic(outside, pieces, rejects, name):
    own = next(row for row in rows("moulded.csv") if row["bonbon"] == name)
    parts = [row for row in rows("bonbons.csv") if row["bonbon"] == name]
    cavities, batch = int(own["cavities"]), float(parts[0]["pieces"])
    moulds = math.ceil(pieces / (1 - rejects) / cavities - 1e-9)
    coat = sum(float(r["grams"]) for r in parts if r["part"] == "shell and cap") / batch
    fill = sum(float(r["grams"]) for r in parts if r["part"] == "filling") / batch
    found = quantities({name: pieces}, rejects, "5 %", "6 g", "150 g")
    one, bowl = found.flavours[0], found.bowls[0]
    assert (one.fills, one.cast) == (moulds, moulds * cavities)
    shells = (coat - float(own["cap_g"])) * moulds * cavities
    leaves = coat * moulds * cavities + 6 * moulds
    full = float(own["cavity_ml"]) * 1.22 * cavities
    to_cast = shells + 6 * moulds + full - shells / moulds - 6 + 150
    expected = {"filling": fill * moulds * cavities / 0.95, "leaves": leaves, "in bowl": max(to_cast, leaves + 150)}
    got = {"filling": one.filled, "leaves": bowl.leaves, "in bowl": bowl.in_bowl}
    for what, grams in expected.items():
        outside(
            quantity=f"{what}, g for {pieces} good {name}, rejects {rejects:.0%}",
            expected=grams,
            got=got[what],
            tolerance=1e-6,
            source="plain arithmetic on bonbons.csv and moulded.csv; fluid chocolate 1.22 g/mL",
        )


def test_three_hundred_good_pieces_at_twenty_percent_rejects_are_fourteen_moulds_of_twenty_eight():
    assert quantities({"hazelnut praline": 300}, "20 %").flavours[0].fills == 14


def test_what_was_brought_needs_no_melting_and_chocolate_is_conserved():
    order, kind = {"dark ganache": 200}, "dark couverture 64 %"
    fresh, helped = quantities(order), quantities(order, brought={kind: 500.0})
    assert fresh.bowls[0].fresh - helped.bowls[0].fresh == pytest.approx(500)
    bowl = helped.bowls[0]
    assert bowl.fresh + bowl.brought == pytest.approx(bowl.leaves + bowl.comes_back)
    with pytest.raises(StudentError):
        quantities(order, brought={"white couverture 32 %": 100.0})


def test_a_requisition_adds_sections_before_it_rounds_packs(outside):
    """Two sections of 500 g of cream: one carton of a quart holds 946.35 mL x 1.006 x 0.97 = 923 g, so two cartons, not one each."""
    need = {"heavy cream 36 %": 440.0}
    (one,) = requisition([need, need], {})
    outside(
        quantity="cartons for 880 g of cream",
        expected=1,
        got=one.packs,
        tolerance=0,
        source="1 US quart = 946.353 mL, NIST HB 44; arithmetic",
    )
    (line,) = requisition([need, need, need], {"heavy cream 36 %": (100.9, 2)})
    assert (line.needed, line.on_hand, line.short, line.packs, line.lead_days) == (1320, 100, 1220, 2, 2)


def test_what_is_in_store_is_not_bought_and_what_nobody_sells_is_asked_about():
    in_store = requisition([{"butter 82 %": 200.0}], {"butter 82 %": (200.0, 1)})[0]
    assert (in_store.short, in_store.packs) == (0, 0)
    asked = requisition([{"skim milk": 200.0}], {})[0]
    assert (asked.packs, asked.lead_days) == (None, None)
    assert table([asked])[1] == ("skim milk", 200, 0, 200, "ask", "", "ask")
    for bad in ({"butter 82 %": -1.0}, {"butter 82 %": math.nan}, {"unicorn": 5.0}):
        with pytest.raises(StudentError):
            requisition([bad], {})


def test_a_day_of_the_larkmoor_lab_is_planned_with_the_nuts_last():
    steps, holds = steps_of(quantities({"dark ganache": 48, "hazelnut praline": 48}, "10 %"))
    plan = make_plan(steps, holds, lab_of(), seconds=5)
    assert isinstance(plan, Plan)
    capped, filled = plan.of("cap: dark ganache"), plan.of("fill: dark ganache")
    assert capped.begins - filled.ends >= 720
    assert left_behind({"tree nuts (hazelnuts)", "milk"}) == {"tree nuts", "milk"}


def test_a_batch_holds_its_moulds_from_the_casting_until_it_is_turned_out():
    steps, holds = steps_of(quantities({"hazelnut praline": 200}), moulds_each=4)  # 8 moulds of 28
    both = [f"hazelnut praline, batch {number} of 2" for number in (1, 2)]
    assert [(hold.first, hold.last) for hold in holds] == [(f"cast: {b}", f"turn out: {b}") for b in both]


def test_batches_share_the_moulds_of_a_flavour():
    found = quantities({"hazelnut praline": 300}, "20 %")
    steps, holds = steps_of(found, moulds_each=4)
    assert [h.count for h in holds] == [4, 4, 3, 3]
    assert [s.minutes for s in steps if s.name.startswith("cast")] == [20, 20, 15, 15]
    assert {h.thing for h in holds} == {"dome, 28"}
    with pytest.raises(StudentError):
        steps_of(found, moulds_each=0)
    assert isinstance(lab_of(Pace(cleaning=10)), Lab)
    assert lab_of(Pace(cleaning=10)).cleaning == 10


def test_every_flavour_has_its_mould_and_fits_into_it():
    """Shell, cap and filling at 1.27 and 1.1 g/mL or more stay below what the cavity holds."""
    for one in flavours().values():
        assert (one.shell + one.cap) / 1.27 + one.filled / 1.25 < one.cavity_ml, one.name


def many(pieces):
    """An order of so many pieces in forty flavours, and those flavours."""
    like = list(flavours().values())
    known = {f"flavour {n}": replace(like[n % 3], name=f"flavour {n}") for n in range(40)}
    return dict.fromkeys(known, pieces // 40), known


@pytest.mark.slow
def test_twenty_thousand_pieces_in_forty_flavours_are_two_seconds_and_five_times_as_many_no_more_than_six_times():
    def seconds(pieces):
        order, known = many(pieces)
        began = time.process_time()
        found = quantities(order, "10 %", "5 %", "5 g", "150 g", known=known)
        steps_of(found, moulds_each=8)
        requisition([found.ingredients])
        return time.process_time() - began

    small, large = (min(seconds(pieces) for _ in range(3)) for pieces in (20_000, 100_000))
    assert small < 2
    assert large < 6 * max(small, 0.02)
