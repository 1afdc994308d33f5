"""The cost card and what feeds it: parts that add up to the cent, receipts, formulas to cost, ranked bars."""

import re
from html.parser import HTMLParser

import pytest

from pastrylab import costing, datasets, purchasing
from pastrylab.benches import costing as benches
from pastrylab.figures.costing import bonbon_formula, cash
from pastrylab.money import money
from pastrylab.units import Q, StudentError

BONBONS = sorted(set(datasets.bonbons()["bonbon"]))
PACKS = purchasing.price_list(datasets.prices())


class Tables(HTMLParser):
    """The tables of a page as lists of rows of text."""

    def __init__(self, page):
        super().__init__()
        self.tables, self._cell = [], None
        self.feed(page)

    def handle_starttag(self, tag, _attributes):
        if tag == "table":
            self.tables.append([])
        elif tag == "tr":
            self.tables[-1].append([])
        elif tag in ("td", "th"):
            self._cell = ""

    def handle_data(self, data):
        if self._cell is not None:
            self._cell += data

    def handle_endtag(self, tag):
        if tag in ("td", "th"):
            self.tables[-1][-1].append(self._cell)
            self._cell = None


def card(name, box=6, **more):
    formula, pieces = bonbon_formula(name)
    packaging = benches.box_packaging(PACKS, box)
    settings = {"pieces": pieces, "rejects": 4, "wage": cash(18), "minutes": 90} | more
    return benches.cost_card(name, formula, PACKS, box=box, packaging=packaging, **settings)


@pytest.mark.parametrize("name", BONBONS)
@pytest.mark.parametrize("box", [6, 12, 24])
@pytest.mark.parametrize("rejects", [0, 1, 7])
def test_every_table_of_the_card_adds_up_to_the_cent(name, box, rejects):
    ingredients, batch, in_box, price = Tables(card(name, box, rejects=rejects)).tables
    for table in (ingredients, batch, in_box):
        *lines, total = table[1:]
        assert sum(money(line[-1]) for line in lines) == money(total[-1])
    assert money(ingredients[-1][-1]) == money(batch[1][-1])
    asked, full, left = (money(row[-1], at_least=None) for row in price[1:])
    assert full == money(in_box[-1][-1]) and left == asked - full


def test_the_card_costs_the_dark_ganache_as_by_hand():
    # Prices and yields of prices.csv, pack by pack; 92 good pieces carry 90 minutes at 18 an hour and 10 % overhead.
    used = 41.5 * 0.93 / (2.5 * 0.98) + 5.80 * 260 / (1.006 * 946.353 * 0.97)
    used += 38 * 0.04 / (7 * 0.95) + 6.20 * 70 / (453.592 * 0.98)
    ingredients, batch, in_box, _ = Tables(card("dark ganache")).tables
    assert float(money(ingredients[-1][-1])) == pytest.approx(used, abs=0.006)
    assert float(money(batch[-1][-1])) == pytest.approx(1.1 * (used + 27), abs=0.006)
    assert float(money(in_box[1][-1])) == pytest.approx(6 * 1.1 * (used + 27) / 92, abs=0.011)


def test_a_price_below_cost_is_said_and_names_are_escaped():
    assert "below its cost" in card("dark ganache") and "below its cost" not in card("dark ganache", food_share=0.15)
    formula = {"<b>nuts</b>": "100 g"}
    packs = {"<b>nuts</b>": purchasing.Pack.of("1 kg", "$9")}
    page = benches.cost_card("<script>", formula, packs, pieces=10).page()
    assert "<b>nuts" not in page and "<script>" not in page and "Not known here" in page


def test_allergens_come_from_the_formula():
    assert "Contains: milk, soybeans, tree nuts." in card("hazelnut praline")
    assert "tree nuts" not in card("dark ganache")


def test_a_receipt_costs_what_is_used():
    used, packs = purchasing.read_receipt("lemons; 1 kg; 4.00; 120 g; 40 %\n\npods\t2 pieces\t7,20\t1 piece\n")
    costed = costing.formula_cost(used, packs)
    assert [str(line.cost) for line in costed.lines] == ["1.20", "3.60"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "an empty receipt"),
        ("lemons; 1 kg; 4.00", "line 1"),
        ("a; 1 kg; 4; 1 g\na; 1 kg; 4; 1 g", "line 2, 'a' again"),
        ("a; 1 kg; 4; 2 pieces", r"\(line 1\)"),
        ("a; 1 kg; four; 2 g", r"\(line 1\)"),
        ("a; 1 kg; 4; 2 g; 140 %", r"\(line 1\)"),
        ("a; 1 kg; $4; 2 g\nb; 1 kg; €4; 2 g", "one currency"),
    ],
)
def test_a_receipt_that_cannot_be_read_names_its_line(text, said):
    with pytest.raises(StudentError, match=said):
        purchasing.read_receipt(text)


def test_the_card_bench_shows_saves_and_explains(own_workbook):
    bench = benches.card_bench()
    assert "Cost card: dark ganache" in bench.card.value
    bench.source.value = benches._OWN
    assert "an empty receipt" in bench.said.value and bench.card.value == ""
    bench.receipt.value = "lemons; 1 kg; 4.00; 120 g; 40 %"
    bench.show.click()
    assert "$1.20" in bench.card.value and bench.said.value == ""
    bench.save.click()
    page = (own_workbook / "lessons" / "my-answers" / "cost-card-my-own-receipt.html").read_text(encoding="utf-8")
    assert page.startswith("<!doctype html>") and "my own receipt" in page and "Saved as" in bench.said.value
    bench.blanks["rejects"].value = "96"
    assert "at least one good piece" in re.sub("<.*?>", "", bench.said.value)


@pytest.mark.parametrize("name", BONBONS)
def test_ranked_bars_are_what_costing_afresh_gives(name):
    formula, pieces = bonbon_formula(name)
    bars = costing.what_moves(formula, PACKS, pieces, 4, "$18", "90 min", 0.2)
    swings = [bar.swing for bar in bars]
    assert swings == sorted(swings, reverse=True)
    used = costing.formula_cost(formula, PACKS).total
    named = {bar.name: bar for bar in bars}
    wage = named["hourly wage"]
    for rate, got in (("$14.40", wage.cost_at_low), ("$21.60", wage.cost_at_high)):
        afresh = costing.batch_cost(used, pieces, 4, costing.labour_cost(rate, Q("90 min"))).per_piece
        assert float(got) == pytest.approx(float(afresh), abs=1e-9)
    assert float(named["minutes of work"].swing) == pytest.approx(float(wage.swing), abs=1e-9)
    assert (named["rejects"].low, named["rejects"].high) == (0, 8)
    prices = [bar for bar in bars if bar.name.startswith("price")]
    apart = {bar.name: bar.swing for bar in costing.tornado(formula, PACKS)}
    for bar in prices:
        assert float(bar.swing) == pytest.approx(float(apart[bar.name]) / (pieces - 4), abs=1e-9)
