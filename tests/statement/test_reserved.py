"""Reserved names against chocolates whose verdict follows from the text of the law and arithmetic by hand."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade import pantry
from pastrylab.trade.statement import filled_chocolate, inside, reserved_names
from pastrylab.trade.statement.reserved import MET, NOT_MET, OPEN

FOLDER = "my-kitchen"
HEAD = "ingredient,also,kind,label,serving,fat,carbohydrate,sugars,protein,cocoa,contents,source\n"


def verdicts(name):
    return {(one.name, one.law.split()[0]): one.verdict for one in reserved_names(name)}


@pytest.mark.parametrize(
    ("name", "reserved", "law", "expected", "why"),
    [
        # fat-free cocoa of 64 %: 64 - 40.1 = 23.9 at the least; 2.2 times that is 52.6
        ("dark couverture 64 %", "semisweet or bittersweet chocolate", "21", MET, "21 CFR 163.123: liquor 35 %"),
        ("dark couverture 50 %", "chocolate", "Directive", MET, "35, 18 and 14 %: 50, 32.1 and 16.9 at the least"),
        ("dark couverture 50 %", "couverture chocolate", "Directive", MET, "31 %: cocoa butter 32.6, half a gram open"),
        (
            "dark chocolate 45-59 %",
            "couverture chocolate",
            "Directive",
            NOT_MET,
            "31 %: cocoa butter 28.9, at most 30.4",
        ),
        ("semisweet chips", "chocolate", "Directive", OPEN, "14 %: fibre 5.9 g is 13.7 to 20.3 g of fat-free cocoa"),
        ("semisweet chips", "sweet chocolate", "21", MET, "15 %: 2.2 times 13.7 g is 30 %"),
        ("semisweet chips", "semisweet or bittersweet chocolate", "21", OPEN, "35 % lies between 30.2 and 44.8 %"),
        # 33 % milk: fibre 1.13 g is at most 3.9 g of fat-free cocoa; 2.2 times that is 8.6, under 10
        ("milk couverture 33 %", "milk chocolate", "21", NOT_MET, "21 CFR 163.130: liquor 10 %; its row says so too"),
        ("milk couverture 33 %", "milk chocolate", "Directive", MET, "25, 2.5, 14, 3.5, 25 %: fat-free cocoa 2.8"),
        ("milk couverture 38 %", "milk chocolate", "21", MET, "5.5 g of fat-free cocoa are 12.1 % of liquor"),
        (
            "milk couverture 38 %",
            "family milk chocolate",
            "Directive",
            OPEN,
            "20 % of milk solids lies in 18.0 to 23.1",
        ),
        ("white couverture 32 %", "white chocolate", "21", MET, "21 CFR 163.124: 20, 3.5, 14 %, sugar at most 55 %"),
        ("white couverture 32 %", "white chocolate", "Directive", MET, "20, 14 and 3.5 %"),
        (
            "white couverture 32 %",
            "white chocolate",
            "Codex",
            MET,
            "milk fat 5.1 % passes the highest an authority may ask",
        ),
    ],
)
def test_verdicts(outside, name, reserved, law, expected, why):
    got = verdicts(name)[reserved, law]
    outside(quantity=f"{name}: {reserved}", expected=expected, got=got, tolerance="exact", source=why)


@pytest.mark.parametrize("name", ["dark couverture 50 %", "dark couverture 64 %", "dark couverture 85 %"])
def test_the_cocoa_of_a_couverture_is_what_its_label_says(name):
    percentage = float(name.split()[2])
    low, high = inside(name)["cocoa solids"]
    assert low == percentage and percentage < high <= percentage + 2


def test_what_is_inside_by_hand(outside):
    """Milk 38 %: cocoa butter 31.99, milk fat 5.61, lactose 8.07, half a gram open each; fibre 2.08."""
    found = inside("milk couverture 38 %")
    cocoa = (38 - 32.49, 2.08 / 0.29)
    milk = (5.11 + 7.57 + 7.57 / 1.65 * 1.17, 6.11 + 8.57 + 8.57 / 1.3 * 1.28)
    for part, ends in (("fat-free cocoa", cocoa), ("milk solids", milk), ("total fat", (31.49 + 5.11, 32.49 + 6.11))):
        for got, expected in zip(found[part], ends, strict=True):
            outside(
                quantity=f"{part} of milk 38 %",
                expected=expected,
                got=got,
                tolerance=0.001,
                source="arithmetic on the row of ingredients.csv; spans of labels.cocoa",
            )
    assert found["liquor"] == pytest.approx((2.2 * cocoa[0], 2.2 * cocoa[1]))


@pytest.mark.parametrize("name", [n for n, row in pantry.facts().items() if row["family"] == "chocolate"])
def test_every_chocolate_is_judged_in_sentences_and_nothing_is_promised(name):
    for one in reserved_names(name):
        assert one.verdict in (MET, NOT_MET, OPEN) and one.law in one.text
        assert "safe" not in one.text.casefold()
        if one.met is True:
            assert NOT_MET not in one.text and OPEN not in one.text


def test_cocoa_mass_is_none_of_them():
    assert reserved_names("cocoa mass") == ()


@pytest.mark.parametrize("name", ["honey", "cocoa powder", "heavy cream", "zorks", "", "hazelnut praline"])
def test_what_is_no_chocolate_is_refused(name):
    with pytest.raises(StudentError):
        reserved_names(name)


@pytest.fixture
def my_chocolate(own_workbook):
    folder = own_workbook / "lessons" / FOLDER
    folder.mkdir(exist_ok=True)

    def write(name, kind, fat, carbohydrate, sugars, protein, cocoa, contents):
        row = f'{name},,{kind},EU,,{fat},{carbohydrate},{sugars},{protein},{cocoa},"{contents}",read\n'
        (folder / "ingredients.csv").write_text(HEAD + row, encoding="utf-8")
        return name

    return write


LIST = "cocoa mass, sugar, cocoa butter, soya lecithin"


def test_ones_own_couverture_by_its_label(my_chocolate):
    name = my_chocolate("house dark", "dark chocolate", 40, 38, 36, 6.5, "64 %", LIST)
    assert verdicts(name)["chocolate", "Directive"] == MET
    assert verdicts(name)["semisweet or bittersweet chocolate", "21"] == MET


def test_another_fat_on_the_list_takes_the_name_in_the_us_and_leaves_it_open_in_the_eu(my_chocolate):
    name = my_chocolate("house dark", "dark chocolate", 40, 38, 36, 6.5, "64 %", LIST + ", palm oil")
    found = verdicts(name)
    assert found["semisweet or bittersweet chocolate", "21"] == NOT_MET
    assert found["chocolate", "Directive"] == OPEN
    assert "another fat" in reserved_names(name)[0].text


def test_without_a_list_nothing_is_met(my_chocolate):
    name = my_chocolate("house dark", "dark chocolate", 40, 38, 36, 6.5, "64 %", "")
    assert MET not in verdicts(name).values()
    assert "read the pack" in reserved_names(name)[0].text


def test_cocoa_powder_on_the_list_is_no_liquor(my_chocolate):
    name = my_chocolate("house dark", "dark chocolate", 40, 38, 36, 6.5, "64 %", "sugar, cocoa butter, cocoa powder")
    assert inside(name)["liquor"][0] == 0
    assert verdicts(name)["sweet chocolate", "21"] == OPEN
    assert verdicts(name)["chocolate", "Directive"] == MET  # there powder counts as cocoa


def test_lactose_that_may_be_wheys_brings_no_protein_that_counts(my_chocolate):
    milk = "sugar, cocoa butter, whole milk powder, cocoa mass, soya lecithin"
    name = my_chocolate("house milk", "milk chocolate", 36, 54, 53, 7, "35 %", milk)
    ends = pantry.own_ingredients()[0][name].ends
    assert inside(name)["milk solids"][0] == pytest.approx(ends["milk_fat"][0] + ends["lactose"][0] * (1 + 1.17 / 1.65))
    whey = my_chocolate("house milk", "milk chocolate", 36, 54, 53, 7, "35 %", milk + ", whey powder")
    ends = pantry.own_ingredients()[0][whey].ends
    assert inside(whey)["milk solids"][0] == pytest.approx(ends["milk_fat"][0] + ends["lactose"][0])


def test_nuts_bring_fibre_that_is_no_cocoa(my_chocolate):
    plain = my_chocolate("house dark", "dark chocolate", 40, 38, 36, 6.5, "", LIST)
    low = inside(plain)["fat-free cocoa"][0]
    nutty = my_chocolate("house dark", "dark chocolate", 40, 38, 36, 6.5, "", LIST + ", hazelnuts")
    assert inside(nutty)["fat-free cocoa"][0] < low


# --- a filled piece ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("coat", "whole", "expected"),
    [
        (5.5, 13.5, MET),  # 40.7 %
        (3.0, 12.0, OPEN),  # 25 % and a tenth of the coat either way
        (2.0, 12.0, NOT_MET),  # 16.7 %
        (3.4, 12.0, MET),  # less a tenth: 3.06 in 11.66, 26.2 %
        (3.3, 12.0, MET),  # 2.97 in 11.67, 25.4 %
        (3.2, 12.0, OPEN),  # 2.88 in 11.68, 24.7 %
        (2.7, 12.0, NOT_MET),  # and a tenth: 2.97 in 12.27, 24.2 %
    ],
)
def test_a_quarter_of_a_filled_piece_is_chocolate(outside, coat, whole, expected):
    outside(
        quantity=f"{coat} g of coat in {whole} g",
        expected=expected,
        got=filled_chocolate("dark couverture 64 %", coat, whole).verdict,
        tolerance="exact",
        source="Directive 2000/36/EC, Annex I, 7 and 10, read in a food code that quotes it: 25 % of the whole",
    )


def test_the_share_of_the_coat_is_said():
    """5.5 of 13.5 g are 40.7 %; a tenth less of coat 4.95 of 12.95, a tenth more 6.05 of 14.05 g."""
    why = filled_chocolate("dark couverture 64 %", 5.5, 13.5).why[0]
    assert why == "The coat is 41 % of the piece, 38.2 to 43.1 % as hands vary; at least 25 %: met."


def test_a_coat_that_is_no_chocolate_by_itself_does_not_make_a_filled_one():
    assert filled_chocolate("cocoa mass", 6, 12).met is False


@pytest.mark.parametrize(("coat", "whole"), [(0, 12), (-1, 12), (13, 12), (12, 0), (float("nan"), 12)])
def test_a_coat_of_nothing_or_of_more_than_the_piece_is_refused(coat, whole):
    with pytest.raises(StudentError):
        filled_chocolate("dark couverture 64 %", coat, whole)


@pytest.mark.parametrize("name", ["milk couverture 33 %", "milk couverture 38 %"])
def test_a_rule_from_memory_is_shown_and_never_decides(name):
    one = next(
        one for one in reserved_names(name) if (one.name, one.law) == ("milk chocolate", "Codex standard 87-1981")
    )
    assert one.met is None and one.verdict == OPEN
    assert "from memory" in one.text and "at least 25 %" in one.text and "at least 14 %" in one.text
    assert MET + "." not in " ".join(one.why) and NOT_MET not in " ".join(one.why)
