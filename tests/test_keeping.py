"""A reading beside an estimate: what counts, where to look, what is refused."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade import keeping

ESTIMATE = keeping.Estimate(0.86, 0.83, 0.89, "Estimated.")


@pytest.mark.parametrize(
    ("reading", "error", "agrees", "says"),
    [
        (0.87, 0.015, True, "agree within their errors"),
        (0.90, 0.015, True, "agree within their errors"),
        (0.905, 0.015, True, "agree within their errors"),
        (0.91, 0.015, False, "higher than the estimate's error allows"),
        (0.81, 0.015, False, "lower than the estimate's error allows"),
    ],
)
def test_reading_beside_an_estimate(reading, error, agrees, says):
    found = keeping.against_meter(ESTIMATE, reading, error)
    assert found.agrees is agrees and says in found.sentence
    assert found.gap == pytest.approx(reading - 0.86)
    assert str(found).endswith(keeping.CAUTION)


@pytest.mark.parametrize(
    ("estimate", "reading", "error"),
    [
        (0.86, 0.87, 0.015),
        (ESTIMATE, 87, 0.015),
        (ESTIMATE, 0.87, 0.5),
        (ESTIMATE, "wet", 0.01),
        (ESTIMATE, 0.87, -0.01),
    ],
)
def test_refuses_a_bare_estimate_a_percentage_and_a_wild_error(estimate, reading, error):
    with pytest.raises(StudentError):
        keeping.against_meter(estimate, reading, error)


# --- food law: what is taken, both sides of each edge -----------------------------------------------------------------

ASKED = {"table": "B", "aw_reading": 0.8, "ph": 5.2, "meter_error": 0.01, "ph_error": 0.0}
TAKES = [
    (keeping.food_code, ("table", "aw_reading", "ph", "meter_error", "ph_error")),
    (keeping.highest_reading, ("table", "ph", "meter_error", "ph_error")),
    (keeping.low_acid, ("aw_reading", "ph", "meter_error", "ph_error")),
]


@pytest.mark.parametrize(("decides", "names"), TAKES)
@pytest.mark.parametrize(
    ("name", "within", "beyond"),
    # The project's own limits, no source: a meter good to 0.05 at the worst, a strip to 1, pH 1 to 10.
    [
        ("meter_error", 0.0, -0.001),
        ("meter_error", 0.05, 0.051),
        ("ph_error", 0.0, -0.01),
        ("ph_error", 1.0, 1.01),
        ("ph", 1.0, 0.99),
        ("ph", 10.0, 10.01),
        ("aw_reading", 1.0, 1.001),
        ("aw_reading", 0.001, 0.0),
    ],
)
def test_what_food_law_is_asked_has_two_sides(decides, names, name, within, beyond):
    asked = {one: ASKED[one] for one in names}
    if name in names:
        assert decides(**asked | {name: within}) is not None
        with pytest.raises(StudentError):
            decides(**asked | {name: beyond})


@pytest.mark.parametrize("table", ["b", " Table B ", "table b"])
def test_a_table_is_known_however_it_is_written(table):
    assert keeping.food_code(table, 0.86, 5.2, 0.015).status == "non-TCS"


@pytest.mark.parametrize("table", ["C", "", "AB"])
def test_a_table_there_is_not_is_refused(table):
    with pytest.raises(StudentError, match="table A .heat-treated, then packaged. or B"):
        keeping.highest_reading(table, 5.2, 0.015)


def test_an_estimate_is_refused_with_its_figure_and_the_high_side_of_it():
    # 0.861 must not read lower than it is: 0.87.
    with pytest.raises(StudentError, match=r"an estimate of 0\.87, computed"):
        keeping.food_code("A", keeping.Estimate(0.861, 0.83, 0.89, "Estimated."), 5.2, 0.015)


# --- the errors are added on the side of growth, and the sentence says what was put against the line -----------------


@pytest.mark.parametrize(
    ("aw", "ph", "error", "ph_error", "said", "status"),
    [
        # 0.86 + 0.015 = 0.875, under 0.88; pH 5.2 + 0.1 = 5.3
        (0.86, 5.2, 0.015, 0.1, "reading 0.860 and pH 5.20, taken as 0.875 and 5.30: by this table alone", "non-TCS"),
        # 0.865 + 0.015 = 0.88, which is no longer under 0.88
        (0.865, 5.2, 0.015, 0.0, "reading 0.865 and pH 5.20, taken as 0.880 and 5.20: a product assessment", "PA"),
        # 0.86451 + 0.015 = 0.87951: to three places up, 0.865 and 0.880
        (0.86451, 5.2, 0.015, 0.0, "reading 0.865 and pH 5.20, taken as 0.880 and 5.20: by this table", "non-TCS"),
        # pH 4.95 + 0.1 = 5.05, past 5.0 at 0.88 + 0.01 = 0.89
        (0.88, 4.95, 0.01, 0.1, "reading 0.880 and pH 4.95, taken as 0.890 and 5.05: a product assessment", "PA"),
        # no water activity above 1
        (0.97, 4.1, 0.05, 0.0, "reading 0.970 and pH 4.10, taken as 1.000 and 4.10: by this table alone", "non-TCS"),
    ],
)
def test_what_was_put_against_the_table_is_said(aw, ph, error, ph_error, said, status):
    found = keeping.food_code("B", aw, ph, error, ph_error)
    assert said in found.sentence and found.status == status
    assert str(found) == f"{found.sentence} {keeping.CAUTION}"


@pytest.mark.parametrize(("ph", "ph_error"), [(5.2, 0.0), (4.6, 0.5)])
def test_the_highest_reading_for_food_packed_without_heat(ph, ph_error):
    # Table B above pH 5.0 (here 5.2 or 4.6 + 0.5 = 5.1): less than 0.88, so 0.88 - 0.015 = 0.865 and not a digit more.
    assert keeping.highest_reading("B", ph, 0.015, ph_error) == 0.865


@pytest.mark.parametrize(
    ("aw", "ph", "error", "ph_error", "stands", "name"),
    [
        # 21 CFR 114.3: pH greater than 4.6 and water activity greater than 0.85.
        (0.835, 5.2, 0.015, 0.0, "Water activity 0.850 with the error is not above the 0.85 line, pH 5.20", "not low"),
        (0.8351, 5.2, 0.015, 0.0, "Water activity 0.851 with the error is above the 0.85 line, pH 5.20", "low"),
        (0.95, 4.5, 0.01, 0.1, "Water activity 0.960 with the error is above the 0.85 line, pH 4.60", "not low"),
        (0.95, 4.5, 0.01, 0.11, "Water activity 0.960 with the error is above the 0.85 line, pH 4.61", "low"),
        (0.98, 5.0, 0.05, 1.0, "Water activity 1.000 with the error is above the 0.85 line, pH 6.00", "low"),
    ],
)
def test_low_acid_food_is_said_with_the_errors_in(aw, ph, error, ph_error, stands, name):
    found = keeping.low_acid(aw, ph, error, ph_error)
    assert found.sentence.startswith(f"{stands}: {name}-acid food in the sense of 21 CFR 114.3.")
    assert found.low_acid is (name == "low")
    assert str(found) == f"{found.sentence} {keeping.CAUTION}"
    # by the readings alone: 0.8351 is under 0.85, pH 4.5 under 4.6, and 0.98 with pH 5 over both
    alone = aw > 0.85 and ph > 4.6
    assert ("The reading alone falls on the other side" in found.sentence) is (alone is not found.low_acid)


# --- a meter beside an estimate, in figures ---------------------------------------------------------------------------


def test_reading_and_estimate_are_said_and_none_lower_than_it_is():
    mine = keeping.Estimate(0.861, 0.832, 0.89, "Estimated.")
    assert mine.written == "0.87 (0.84 to 0.89)"
    found = keeping.against_meter(mine, 0.8701, 0.0151)
    assert found.sentence.startswith(
        "The meter shows 0.871, give or take 0.016; the estimate is 0.87 (0.84 to 0.89). They agree"
    )
    assert found.gap == pytest.approx(0.0091)


@pytest.mark.parametrize(("error", "taken"), [(0.05, True), (0.051, False), (0.0, True), (-0.001, False)])
def test_the_error_of_a_meter_has_two_sides(error, taken):
    if taken:
        assert keeping.against_meter(ESTIMATE, 0.87, error).agrees
    else:
        with pytest.raises(StudentError):
            keeping.against_meter(ESTIMATE, 0.87, error)


# --- what can grow ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("aw", "printed", "organism", "grows"),
    # FDA Bad Bug Book 1992: Staphylococcus aureus from 0.83 (low end), Salmonella from 0.94, botulinum A and B from 0.93.
    [
        (0.83, "0.83", "Staphylococcus aureus", True),
        (0.82, "0.82", "Staphylococcus aureus", False),
        (0.94, "0.94", "Salmonella", True),
        (0.93, "0.93", "Salmonella", False),
        (0.93, "0.93", "Clostridium botulinum types A and B", True),
        (0.9201, "0.93", "Clostridium botulinum types A and B", True),
        (0.92, "0.92", "Clostridium botulinum types A and B", False),
        (0.60, "0.60", "osmophilic yeasts and a few moulds", True),
        (0.59, "0.59", "osmophilic yeasts and a few moulds", False),
        (1.0, "1.00", "Clostridium botulinum type E", True),
    ],
)
def test_what_is_printed_is_what_is_compared(aw, printed, organism, grows):
    found = keeping.growth(aw)
    assert found.sentence.startswith(f"At a water activity of {printed} these can grow")
    assert (organism in found.sentence) is grows
    assert str(found) == f"{found.sentence} {keeping.CAUTION}"


def test_the_high_end_of_an_estimate_is_what_grows():
    wide = keeping.Estimate(0.84, 0.80, 0.875, "Estimated.")
    assert keeping.spoilage_band(wide) == "many yeasts"  # Beuchat 1981: from 0.87
    assert keeping.growth(wide).sentence.startswith("At a water activity of 0.88 ")
    with pytest.raises(StudentError):
        keeping.spoilage_band(1.01)


# --- mould ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("aw", "heat", "taken"),
    # The lines hold from 0.74 to 0.90, from 21 to 27 degC.
    [
        (0.74, "21 degC", True),
        (0.739, "21 degC", False),
        (0.90, "27 degC", True),
        (0.901, "27 degC", False),
        (0.8, "20.9 degC", False),
        (0.8, "27.1 degC", False),
    ],
)
def test_days_before_mould_have_two_sides(aw, heat, taken):
    if taken:
        assert keeping.mould_free_days(aw, heat, dairy=False).days > 0
    else:
        with pytest.raises(StudentError):
            keeping.mould_free_days(aw, heat, dairy=False)


def test_the_days_are_said_none_more_than_there_are():
    # 10^(7.91 - 0.081 x 78) = 10^1.592 = 39.08; / 1.15 = 33.98; x 1.15 = 44.9: cut, not rounded.
    said = keeping.mould_free_days(0.78, "21 degC", dairy=False).sentence
    assert said.startswith("About 39 days without visible mould (33 to 44), by formulas")
    # An estimate of 0.78 to 0.82: 10^(7.91 - 0.081 x 82) = 10^1.268 = 18.54, / 1.15 = 16.1; the most by 0.78, 44.9.
    wide = keeping.mould_free_days(keeping.Estimate(0.80, 0.78, 0.82, "Estimated."), "21 degC", dairy=False)
    assert wide.sentence.startswith("At the high end, 0.82: about 18 days without visible mould (16 to 44), by")
    assert (wide.days, wide.low, wide.high) == pytest.approx((18.54, 16.12, 44.95), abs=0.01)
    assert str(wide) == f"{wide.sentence} {keeping.CAUTION}"


def test_the_bands_of_temperature_between_the_two_lines():
    # 23 degC, a third of the way: logs 1.592 and 1.3734: 1.592 - 0.2186 / 3 = 1.5191; 10^1.5191 = 33.05.
    assert keeping.mould_free_days(0.78, "23 degC", dairy=False).days == pytest.approx(33.05, abs=0.01)
