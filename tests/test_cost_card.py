"""The cost card and what feeds it: parts that add up to the cent, receipts, formulas to cost, ranked bars."""

import re
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastrylab.course.catalogue import EXERCISES
from pastrylab.course.costing import benches, figures
from pastrylab.ground import datasets, own
from pastrylab.ground.money import money
from pastrylab.ground.units import Q, StudentError
from pastrylab.school import engine
from pastrylab.trade import costing, purchasing
from pastrylab.trade.costing.kitchen import bonbon_formula, cash

pytestmark = pytest.mark.usefixtures("undrawn")

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
    assert "Contains: milk, soybeans, tree nuts (hazelnuts)." in card("hazelnut praline")
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
    bench.keeper.name.value = "lemon curd <1>"
    bench.save.click()
    page = (own_workbook / "lessons" / "my-answers" / "cost-card-lemon-curd-1.html").read_text(encoding="utf-8")
    assert page.startswith("<!doctype html>") and "lemon curd &lt;1&gt;" in page and "Saved as" in bench.said.value
    bench.keeper.name.value = "  "
    bench.save.click()
    assert (own_workbook / "lessons" / "my-answers" / "cost-card-my-own-receipt-typed-below.html").exists() is False
    assert "my own receipt" in bench.card.value
    bench.blanks["rejects"].value = "96"
    assert "at least one good piece" in re.sub("<.*?>", "", bench.said.value)


# --- what is typed into the card's boxes ------------------------------------------------------------------------------


def said(bench):
    return re.sub("<.*?>", "", bench.said.value)


@pytest.mark.parametrize(
    ("box", "typed", "other"),
    [
        ("wage", "22,50", "22.5"),
        ("wage", "$22.50 an hour", "22.5"),
        ("wage", "22.50 USD/h", "22.5"),
        ("minutes", "1 h 30 min", "90"),
        ("minutes", "1,5 h", "90 min"),
        ("pieces", "8 dozen", "96"),
        ("pieces", "1,200", "1200"),
        ("rejects", "4 pieces", "4"),
        ("tax", "8,25", "8.25 %"),
        ("food_share", "30 %", "30"),
    ],
)
def test_a_box_reads_what_a_cook_writes(own_workbook, undrawn, box, typed, other):
    bench = benches.card_bench()
    pages = []
    for text in (typed, other):
        bench.blanks[box].value = text
        assert said(bench) == ""
        pages.append(bench.card.value)
    assert pages[0] == pages[1] and "Cost card" in pages[0]


@pytest.mark.parametrize(
    ("box", "typed", "words"),
    [
        ("wage", "-3", "'Wage, an hour'. Needed: an amount of at least 0"),
        ("wage", "1.200", "1200 or 1.20"),
        ("wage", "€20", "an amount in USD"),
        ("wage", "18 kg", "a currency sign"),
        ("minutes", "2 kg", "a time"),
        ("minutes", "-5", "at least 0"),
        ("pieces", "ninety", "a number of pieces"),
        ("pieces", "96.5", "a whole number"),
        ("pieces", "0", "at least 1"),
        ("pieces", "", "a number of pieces"),
        ("rejects", "96", "at least one good piece"),
        ("food_share", "0", "above 0"),
        ("food_share", "130", "130 % for the food-cost share"),
        ("food_share", "0.3", "30 % or 0.3 %"),
        ("overhead_share", "9000", "9000 % for the overhead share"),
        ("tax", "30 g", "a percentage"),
    ],
)
def test_a_box_says_what_it_cannot_take_and_shows_no_card(own_workbook, undrawn, box, typed, words):
    bench = benches.card_bench()
    bench.blanks[box].value = typed
    assert words in said(bench).replace("&#39;", "'") and bench.card.value == ""
    assert "our side" not in said(bench)


@given(st.sampled_from(sorted(benches._BLANKS)), st.text(max_size=40))
def test_any_text_in_a_box_is_read_or_refused(box, text):
    try:
        benches._BLANKS[box].read(text)
    except StudentError as refused:
        assert "Needed:" in str(refused)


def test_a_price_of_ones_own_in_another_currency_is_said_to_be_left_out(own_workbook):
    row = {"item": "lemons", "pack_size": "1", "pack_unit": "kg", "price": "4"}
    own.add("prices", row)
    assert benches.card_bench().left_out.value == ""
    own.add("prices", row | {"item": "limes", "currency": "EUR"})
    said_so = benches.card_bench().left_out.value
    assert "Left out." in said_so and "EUR" in said_so and "row 3" in said_so


def test_a_receipt_in_another_currency_asks_for_its_own_packaging(own_workbook):
    bench = benches.card_bench()
    bench.receipt.value = "dark couverture; 2.5 kg; 41,50 €; 500 g"
    bench.source.value = benches._OWN
    assert "a receipt in EUR" in said(bench) and "what the packaging of a box costs you in EUR" in said(bench)
    bench.packaging.value = "1,40"
    # 41.50 x 0.5 / 2.5 = 8.30 of couverture; 90 minutes at 18 are 27.00.
    tables = Tables(bench.card.value).tables
    assert said(bench) == "" and tables[0][-1][-1] == "€8.30"
    assert ["packaging", "€1.40"] in tables[2] and tables[1][2][-1] == "€27.00"


def test_a_page_that_cannot_be_written_is_said_and_the_card_stays(own_workbook, monkeypatch, tmp_path):
    bench = benches.card_bench()
    (tmp_path / "taken").write_text("a file where the folder should be")
    monkeypatch.setattr(benches.answers, "folder", lambda: tmp_path / "taken")
    bench.save.click()
    assert "cannot be written to" in said(bench) and "Cost card" in bench.card.value


def test_the_card_shows_what_is_paid_on_top_and_the_tax(own_workbook):
    bench = benches.card_bench()
    before = Tables(bench.card.value).tables
    bench.blanks["on_costs"].value, bench.blanks["tax"].value = "25 %", "10"
    _, batch, _, price = Tables(bench.card.value).tables
    # 90 minutes at 18.00 are 27.00, and a quarter on top 33.75; a tenth of the price, which stays what it was.
    assert (before[1][2][-1], batch[2][-1]) == ("$27.00", "$33.75") and "25 % on top" in batch[2][1]
    asked = int(money(price[1][-1]) * 100)
    assert price[1][-1] == before[3][1][-1] and [row[0] for row in price[4:]] == [
        "sales tax or VAT, 10 %",
        "the customer pays",
    ]
    assert int(money(price[4][-1]) * 100) == (asked + 5) // 10
    assert money(price[5][-1]) == money(price[1][-1]) + money(price[4][-1])


def test_a_card_that_sells_at_cost_says_so():
    packs = {"x": purchasing.Pack.of("1 kg", "$60")}
    page = benches.cost_card("x", {"x": "1 kg"}, packs, pieces=60, food_share=1, overhead_share=0)
    assert "no profit, no loss" in page and "below its cost" not in page
    page = benches.cost_card("x", {"x": "1 kg"}, packs, pieces=60, food_share=0.99, overhead_share=0)
    assert "Careful" not in page


# --- benches: price equal to cost ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("off", "said"),
    [
        (0.39, "To leave what is left today you must sell"),
        (0.40, "It sells at its cost: no profit, no loss"),
        (0.41, "Every box sold loses $0.12: the better it sells, the worse"),
    ],
)
def test_a_discount_down_to_the_cost_is_its_own_case(off, said):
    # 12.00 less 40 % is 7.20, what a box costs; less 41 % it is 7.08.
    sentence = figures.Discount().update(price=12, variable=7.2, off=off, now=40, more=60)
    assert said in sentence and "$0.00:" not in sentence


def test_a_price_that_only_brings_the_cost_is_said_before_any_discount():
    discount = figures.Discount()
    assert "brings just the $9.00 it costs" in discount.update(price=9, variable=9, off=0.2, now=40, more=60)
    assert "does not even bring the $9.10" in discount.update(price=9, variable=9.1, off=0.2, now=40, more=60)


@pytest.mark.parametrize(
    ("other", "said"),
    [
        # Ingredients of 4.80 at 32 % make a price of 15.00.
        (10.1, "Each box leaves $0.10"),
        (
            10.2,
            "A box costs just that to make: no profit, no loss, however many you sell. Nothing is left for the fixed",
        ),
        (10.3, "each one sold loses $0.10"),
    ],
)
def test_a_price_equal_to_cost_breaks_nothing_even(other, said):
    assert said in figures.BreakEven().update(food=4.8, share=0.32, other=other, fixed=300, sold=75)


def test_the_price_bench_writes_a_price_up():
    # 7.80 / 0.35 = 22.2857..., asked as 22.29; 75 boxes leave 75 x (22.29 - 8.80) - 300 = 711.75.
    sentence = figures.BreakEven().update(food=7.8, share=0.35, other=1, fixed=300, sold=75)
    assert "the price $22.29." in sentence and sentence.endswith("75 boxes leave $711.75.")


def test_no_bench_of_the_lesson_opens_on_the_answer_of_an_exercise():
    shown = " ".join(b.sentence.value for b in (benches.price_bench(), benches.promotion_bench(), benches.cost_bench()))
    for exercise in EXERCISES.values():
        if exercise.lesson == "08" and exercise.kind == "money":
            assert engine.case(exercise).answer not in shown, exercise.id
    assert "4.2 " not in shown and "50 boxes pay" not in shown


def test_the_cost_bench_counts_what_is_paid_on_top_of_the_wage():
    settings = {"bonbon": "dark ganache", "wage": 18, "minutes": 90, "rejects": 4, "unsure": 0.2}
    plain, more = (figures.WhatMoves().update(on_costs=part, **settings) for part in (0, 0.25))
    used = 41.5 * 0.93 / (2.5 * 0.98) + 5.80 * 260 / (1.006 * 946.353 * 0.97)
    used += 38 * 0.04 / (7 * 0.95) + 6.20 * 70 / (453.592 * 0.98)
    for sentence, work in ((plain, 27), (more, 33.75)):
        assert f"A good piece costs {100 * (used + work) / 92:.1f} cents" in sentence
    # Most moves it at five times the work: the wage, a fifth down and up.
    sentence = figures.WhatMoves().update(on_costs=0.25, **(settings | {"minutes": 450}))
    low, high = (100 * (used + part * 5 * 33.75) / 92 for part in (0.8, 1.2))
    assert f"hourly wage, from {low:.1f} to {high:.1f} cents" in sentence


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


def test_a_loss_is_no_margin_below_nothing():
    # Six pieces of $1.00 of food sell at $6.00; overhead as much again makes them cost $12.00.
    packs = {"x": purchasing.Pack.of("1 kg", "$60")}
    page = benches.cost_card("x", {"x": "1 kg"}, packs, pieces=60, food_share=1, overhead_share=1)
    assert "the price pays 50 % of the full cost" in page and "% of the price" not in page


# --- a receipt is kept with its boxes -----------------------------------------------------------------------------------


HONEY = "honey; 500 g; 8.00; 250 g\n"


def filled():
    """Half a pack of 8.00 is 4.00; half an hour at 12.00 is 6.00; twelve pieces, six to a box of 1.00."""
    bench = benches.card_bench()
    boxes = {"pieces": "12", "rejects": "0", "minutes": "30", "wage": "12", "overhead_share": "0", "tax": "5 %"}
    for name, text in boxes.items():
        bench.blanks[name].value = text
    bench.packaging.value, bench.receipt.value, bench.source.value = "1.00", HONEY, benches._OWN
    return bench


def test_a_receipt_is_kept_by_name_with_every_box_and_opened_again(own_workbook):
    bench = filled()
    bench.box.value = 12
    bench.keeper.name.value = "honey bars"
    bench.keeper.keep.click()
    assert "Kept as honey bars" in bench.keeper.said.value
    assert (own_workbook / "lessons/my-kitchen/receipts/honey bars.csv").read_text(encoding="utf-8") == HONEY
    other = benches.card_bench()
    before = other.card.value
    other.keeper.fetch.click()
    assert other.card.value != before and "Cost card: honey bars" in other.card.value and said(other) == ""
    assert Tables(other.card.value).tables == Tables(bench.card.value).tables
    assert {name: box.value for name, box in other.blanks.items()} == {n: b.value for n, b in bench.blanks.items()}
    assert (other.box.value, other.packaging.value, other.source.value) == (12, "1.00", benches._OWN)


def test_a_receipt_that_cannot_be_costed_is_kept_and_says_so_again(own_workbook):
    bench = filled()
    bench.receipt.value, bench.blanks["wage"].value = "honey; a pot; 8.00; 250 g", "lots"
    bench.keeper.name.value = "unfinished"
    bench.keeper.keep.click()
    other = benches.card_bench()
    other.keeper.fetch.click()
    assert "Needed" in said(other) and other.card.value == other.picture.value == ""
    assert "Opened" in other.keeper.said.value and other.blanks["wage"].value == "lots"


def test_an_empty_receipt_is_not_kept_and_a_bonbon_with_one_s_own_wage_is(own_workbook):
    bench = benches.card_bench()
    bench.blanks["wage"].value = "21"
    bench.keeper.name.value = "at 21 an hour"
    bench.keeper.keep.click()
    bench.source.value = benches._OWN
    bench.keeper.name.value = "nothing"
    bench.keeper.keep.click()
    assert "an empty receipt" in bench.keeper.said.value
    other = benches.card_bench()
    other.keeper.fetch.click()
    assert other.source.value != benches._OWN and other.blanks["wage"].value == "21" and "Cost card" in other.card.value


def test_a_receipt_laid_into_the_folder_and_settings_of_no_sense_are_opened(own_workbook):
    folder = own_workbook / "lessons" / "my-kitchen" / "receipts"
    (folder / "settings").mkdir(parents=True)
    (folder / "from home.csv").write_text(HONEY, encoding="utf-8")
    (folder / "settings" / "from home.csv").write_text("box,7\nsource,somewhere\nwage\n,,\n", encoding="utf-8")
    bench = benches.card_bench()
    bench.keeper.fetch.click()
    assert bench.source.value == benches._OWN and bench.box.value == 6 and "$4.00" in bench.card.value


def test_the_picture_shows_what_a_box_is_made_of(own_workbook):
    bench = filled()
    # A box of six carries 2.00 of honey and 3.00 of work, and 1.00 of packaging: 33, 50 and 17 of 100.
    assert "A box costs $6.00 in all" in bench.parts.alt
    assert "work (50 %), honey (33 %), packaging (17 %)" in bench.parts.alt and "together: 33 %" in bench.parts.alt
    assert bench.parts.alt.split(".")[0] in bench.picture.value
    bars = [bar.get_width() for bar in bench.parts._bars if bar.get_visible()]
    assert bars == pytest.approx([100 / 3, 50, 100 / 6])
    # Every second piece is lost: the same batch on six pieces, 4.00 and 6.00, and 1.00 of packaging.
    bench.blanks["rejects"].value = "6"
    assert (
        "A box costs $11.00 in all. The largest parts: work (55 %), honey (36 %), packaging (9.1 %)" in bench.parts.alt
    )


def test_many_ingredients_are_gathered_and_odd_names_drawn(own_workbook):
    bench = filled()
    lines = [f"part {k} of $x_{k}^2$ & <b>; 1 kg; {k + 1}.00; 1000 g" for k in range(12)]
    bench.receipt.value = "\n".join(lines)
    bench.show.click()
    assert said(bench) == "" and "<img" in bench.picture.value
    labels = [label.get_text() for label in bench.parts.axes.get_yticklabels()]
    assert len(labels) == 9 and labels[6] == "the other ingredients"
    # 12 + 11 + ... + 1 is 78, the six dearest 57, the others 21; half of it in a box, with 3.00 of work and 1.00 of box.
    widths = [bar.get_width() for bar in bench.parts._bars]
    assert widths[6] == pytest.approx(100 * 10.5 / 43) and widths[0] == pytest.approx(100 * 6 / 43)
