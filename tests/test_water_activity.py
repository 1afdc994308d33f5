"""Water activity and keeping: bad input, invariances, estimates that stay estimates."""

import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastrylab.ground.units import Q, StudentError
from pastrylab.trade import keeping
from pastrylab.trade import water_activity as wa
from pastrylab.trade.dissolved import solutes_from
from pastrylab.trade.formula import Formula
from pastrylab.trade.solutes import SOLUTES, Solute, solute_named

# A busy machine is no failure.
patient = settings(deadline=None)
GANACHE = {
    "water": "295 g",
    "sucrose": "180 g",
    "lactose": "15 g",
    "fat": "372 g",
    "protein": "45 g",
    "fibre": "40 g",
}
SYRUP = {"water": "30 g", "glucose": "30 g", "fructose": "30 g"}
masses = st.floats(0.5, 500)
names = st.sampled_from(sorted(SOLUTES))


@patient
@given(water=masses, name=names, mass=masses, split=st.floats(0.01, 0.99))
def test_a_solute_in_lots_changes_nothing(water, name, mass, split):
    whole = wa.norrish.floats(water, {name: mass})
    lots = wa.norrish.floats(water, [(name, mass * split), (name, mass * (1 - split))])
    assert lots == pytest.approx(whole, abs=1e-12)


@patient
@given(water=masses, mix=st.dictionaries(names, masses, min_size=1, max_size=4), scale=st.floats(0.01, 100))
def test_only_proportions_count_and_more_solute_lowers(water, mix, scale):
    aw = wa.norrish.floats(water, mix)
    assert 0 <= aw < 1
    assert wa.norrish.floats(water * scale, {k: m * scale for k, m in mix.items()}) == pytest.approx(aw, abs=1e-12)
    more = {k: m * 1.2 for k, m in mix.items()}
    assert wa.norrish.floats(water, more) < aw < wa.norrish.floats(water * 1.2, mix)


def test_water_alone_and_mixed_ways_of_writing():
    assert wa.norrish("40 g", {}) == 1
    one = wa.norrish("40 g", {"sucrose": "60 g"})
    assert isinstance(one, float)
    assert one == wa.norrish(Q(0.04, "kg"), {"Sugar": Q(60, "g")}) == wa.norrish.floats(40.0, {"saccharose": 60.0})


def test_arrays_of_compositions_agree_with_single_ones():
    water, sugar = np.linspace(20, 80, 100_000), np.linspace(10, 90, 100_000)
    many = wa.norrish.floats(water, {"sucrose": sugar, "glucose": 5.0})
    assert many.shape == water.shape
    for i in (0, 54_321, 99_999):
        assert many[i] == pytest.approx(wa.norrish.floats(water[i], {"sucrose": sugar[i], "glucose": 5.0}))
    at_the_door = wa.norrish(Q(water[:3], "g"), {"sucrose": Q(sugar[:3], "g")})
    assert at_the_door == pytest.approx(wa.norrish.floats(water[:3], {"sucrose": sugar[:3]}))


@pytest.mark.parametrize(
    ("water", "solutes", "said"),
    [
        ("0 g", {"sucrose": "60 g"}, "water"),
        ("40 g", {"gelatin": "60 g"}, "one of"),
        ("40 g", {"sucrose": "-1 g"}, "sucrose"),
        ("40 g", {"sucrose": 60}, "unit"),
        (40, {"sucrose": "60 g"}, "unit"),
        ("40 mL", {"sucrose": "60 g"}, "a volume"),
        ("40 g", {"glucose syrup DE 5": "60 g"}, "DE 20 to 45"),
        ("40 g", {"glucose syrup DE 46": "60 g"}, "DE 20 to 45"),
        ("25 g", {"corn syrup, 99 DE": "100 g"}, "sugars by name"),
    ],
)
def test_norrish_refuses(water, solutes, said):
    with pytest.raises(StudentError, match=said):
        wa.norrish(water, solutes)


def test_plain_floats_refuse_a_dry_mix_among_many():
    with pytest.raises(StudentError, match="without water"):
        wa.norrish.floats(np.array([40.0, 0.0]), {"sucrose": 60.0})


def test_a_solute_of_your_own_and_syrups_by_de():
    own = Solute("trial", 180.1559, 2.25, 2.0, 2.5, "a trial")
    assert wa.norrish("40 g", {own: "60 g"}) == wa.norrish("40 g", {"glucose": "60 g"})
    low, high = (wa.norrish("40 g", {f"glucose syrup DE {de}": "60 g"}) for de in (28, 42))
    assert high < low
    assert solute_named("Corn Syrup, 42 DE").molar_mass == pytest.approx(18016 / 42)


def test_every_constant_names_its_source_and_lies_in_its_range():
    for solute in SOLUTES.values():
        assert solute.k_low <= solute.k <= solute.k_high and len(solute.source) > 20


def test_syrup_by_its_parts_and_as_one_solute_agree():
    parts = {"glucose": "19 g", "maltose": "14 g", "higher saccharides": "67 g"}
    assert wa.norrish("40 g", parts) == pytest.approx(wa.norrish("40 g", {"glucose syrup DE 42": "100 g"}), abs=0.002)


# --- what is dissolved --------------------------------------------------------------------------------


def test_only_what_dissolves_counts():
    parts = solutes_from(GANACHE)
    assert parts.solutes_g == {"sucrose": 180.0, "lactose": 15.0}
    assert set(parts.left_out_g) == {"fat", "protein", "fibre"}
    with_more_fat = wa.estimate({**GANACHE, "fat": "600 g"})
    assert with_more_fat.value == wa.estimate(GANACHE).value


def test_undissolved_chocolate_sugar_moves_the_estimate():
    whole, half, none = (wa.estimate(GANACHE, dissolved_share=x).value for x in (1.0, "50 %", 0.0))
    assert whole < half < none
    assert half == pytest.approx(wa.estimate({**GANACHE, "sucrose": "90 g"}).value)
    partly = wa.estimate(GANACHE, dissolved_share=0.0, chocolate_sucrose="90 g")
    assert partly.value == pytest.approx(half)
    assert any("undissolved" in note for note in partly.notes)


def test_sugar_beyond_saturation_does_not_count():
    full = wa.estimate({"water": "100 g", "sucrose": "208 g"}).value
    over = solutes_from({"water": "100 g", "sucrose": "400 g"})
    assert over.solutes_g["sucrose"] == pytest.approx(100 * 67.3546 / (100 - 67.3546), abs=0.1)
    assert over.solutes_g["sucrose"] + over.undissolved_g["sucrose"] == pytest.approx(400)
    assert wa.estimate({"water": "100 g", "sucrose": "400 g"}).value == pytest.approx(full, abs=0.003)
    milky = solutes_from({"water": "100 g", "lactose": "50 g"})
    assert milky.solutes_g["lactose"] == pytest.approx(100 * 17.8 / 82.2)


def test_the_composition_of_a_formula_can_be_given():
    formula = Formula({"heavy cream 36 %": "100 g", "invert syrup": "20 g"})
    whole = formula.composition()
    by_hand = {c: whole.mass(c) for c in whole}
    assert wa.estimate(whole) == wa.estimate(by_hand)
    sorbitol = Formula({"heavy cream 36 %": "100 g", "sorbitol powder": "20 g"}).composition()
    with pytest.raises(StudentError, match="which polyol"):
        wa.estimate(sorbitol)
    assert (
        wa.estimate(sorbitol, polyol="sorbitol").value
        < wa.estimate(Formula({"heavy cream 36 %": "100 g"}).composition()).value
    )


@pytest.mark.parametrize(
    ("composition", "said"),
    [
        ({"sucrose": "180 g"}, "without water"),
        ({"water": "0 g", "sucrose": "180 g"}, "without water"),
        ({"water": "200 g", "total_sugars": "180 g"}, "outside the model"),
        ({"water": "200 g", "total_sugars": "180 g", "sucrose": "90 g"}, "each sugar by name"),
        ({"water": "200 g", "polyols": "30 g"}, "which polyol"),
        ({"water": "10 g", "glucose": "40 g", "fructose": "40 g"}, "outside the model"),
        ({"water": "200 g", "sucrose": 180}, "unit"),
        ({"water": "200 g", "sucros": "180 g"}, "called 'sucros'"),
    ],
)
def test_estimates_refuse(composition, said):
    with pytest.raises(StudentError, match=said):
        wa.estimate(composition)
    with pytest.raises(StudentError):
        wa.estimate(GANACHE, dissolved_share=1.5)


@pytest.mark.parametrize("dry", ["dark chocolate 60-69 %", "granulated sugar"])
def test_what_is_nearly_dry_has_no_estimate(dry):
    with pytest.raises(StudentError, match="at least 3%"):
        wa.estimate(Formula({dry: "100 g"}).composition())


def test_honey_is_judged_as_a_syrup():
    got = wa.estimate(Formula({"honey": "100 g"}).composition())
    assert "clear syrup" in got.sentence and got.low < 0.54 < got.high


def test_more_sugar_from_chocolate_than_there_is():
    with pytest.raises(StudentError, match="at most the 180 g"):
        wa.estimate(GANACHE, dissolved_share=0.5, chocolate_sucrose="200 g")


def test_nothing_printed_reads_drier_than_it_is():
    for water in np.linspace(60, 300, 97):
        found = wa.estimate({"water": Q(water, "g"), "sucrose": "100 g", "glucose": "20 g"})
        value, low, high = (float(x) for x in re.findall(r"\d\.\d\d", found.sentence)[:3])
        assert value >= found.value - 1e-9 and low >= found.low - 1e-9 and high >= found.high - 1e-9
        assert found.written == f"{value:.2f} ({low:.2f} to {high:.2f})"
        assert float(re.search(r"\d\.\d\d", keeping.growth(found).sentence)[0]) >= found.high - 1e-9


# --- estimates ----------------------------------------------------------------------------------------


@patient
@given(
    water=st.floats(60, 400),
    sucrose=st.floats(0, 300),
    glucose=st.floats(0, 60),
    fructose=st.floats(0, 60),
    fat=st.floats(0, 300),
)
def test_an_estimate_lies_between_its_ends(water, sucrose, glucose, fructose, fat):
    parts = {"water": water, "sucrose": sucrose, "glucose": glucose, "fructose": fructose, "fat": fat}
    got = wa.estimate({name: Q(grams, "g") for name, grams in parts.items()})
    assert 0 < got.low <= got.value <= got.high <= 1
    assert got.high - got.value >= min(0.0099, 1 - got.value)


def test_errors_are_wider_with_fat_and_when_dry():
    clear = wa.estimate({"water": "100 g", "sucrose": "100 g"})
    fatty = wa.estimate({"water": "100 g", "sucrose": "100 g", "fat": "80 g"})
    dry = wa.estimate(SYRUP)
    assert clear.high - clear.value == pytest.approx(0.01)
    assert fatty.high - fatty.value == pytest.approx(0.03)
    assert 0.019 < dry.high - dry.value <= 0.04
    assert "clear syrup" in clear.sentence and "more than sugars and water" in fatty.sentence


def test_alcohol_is_said_and_not_counted():
    plain, spirited = wa.estimate(SYRUP), wa.estimate({**SYRUP, "alcohol": "4 g"})
    assert spirited.value == plain.value and spirited.low < plain.low
    assert any("volatile" in note for note in spirited.notes)


def test_salts_and_the_offset_of_a_meter():
    assert wa.meter_offset(0.760, "table salt", "25 degC") == pytest.approx(0.760 - 0.7525, abs=1e-4)
    with pytest.raises(StudentError, match="one of"):
        wa.salt_standard("pepper", "25 degC")
    with pytest.raises(StudentError):
        wa.salt_standard("NaCl", "60 degC")


# --- keeping ------------------------------------------------------------------------------------------


def test_an_estimate_never_picks_a_class():
    guess = wa.estimate(SYRUP)
    for decide in (keeping.food_code, keeping.low_acid):
        arguments = ("B", guess, 5.2, 0.015) if decide is keeping.food_code else (guess, 5.2, 0.015)
        with pytest.raises(StudentError, match="an estimate decides no class"):
            decide(*arguments)
    with pytest.raises(TypeError):
        float(guess)


def test_the_error_lies_on_the_side_of_growth():
    close = keeping.food_code("B", 0.87, 6.0, 0.015)
    assert (close.status, close.at_the_reading, close.aw) == ("PA", "non-TCS", 0.885)
    assert "error of the instruments decides" in close.sentence
    acid = keeping.food_code("A", 0.96, 4.5, 0.0, ph_error=0.2)
    assert (acid.status, acid.at_the_reading) == ("PA", "non-TCS")
    assert keeping.low_acid(0.84, 5.0, 0.015).low_acid and not keeping.low_acid(0.84, 5.0, 0.01).low_acid
    assert not keeping.low_acid(0.95, 4.6, 0.015).low_acid and keeping.low_acid(0.95, 4.6, 0.015, ph_error=0.1).low_acid


@patient
@given(
    table=st.sampled_from("AB"),
    aw=st.floats(0.5, 1.0),
    ph=st.floats(3, 8),
    error=st.floats(0, 0.05),
    more=st.floats(0, 0.05),
)
def test_more_error_more_water_or_less_acid_never_helps(table, aw, ph, error, more):
    def rank(*arguments):
        return {"non-TCS": 0, "PA": 1}[keeping.food_code(*arguments).status]

    here = rank(table, aw, ph, error)
    assert rank(table, aw, ph, min(0.05, error + more)) >= here
    assert rank(table, min(1.0, aw + more), ph, error) >= here
    assert rank(table, aw, ph + more, error) >= here


@patient
@given(table=st.sampled_from("AB"), ph=st.floats(3, 8), error=st.floats(0, 0.05))
def test_the_highest_reading_is_the_highest(table, ph, error):
    most = keeping.highest_reading(table, ph, error)
    assert keeping.food_code(table, most - 1e-6, ph, error).status == "non-TCS"
    if most < 1:
        assert keeping.food_code(table, min(1.0, most + 1e-6), ph, error).status == "PA"


def test_a_worked_limit():
    assert keeping.highest_reading("B", 5.5, 0.015) == pytest.approx(0.865)
    assert keeping.highest_reading("A", 4.2, 0.015) == 1.0


@pytest.mark.parametrize(
    ("table", "aw", "ph", "error"),
    [
        ("C", 0.86, 5.2, 0.01),
        ("B", 1.2, 5.2, 0.01),
        ("B", 0.86, 14, 0.01),
        ("B", 0.86, 5.2, -0.01),
        ("B", 0.86, 5.2, None),
    ],
)
def test_the_food_code_refuses(table, aw, ph, error):
    with pytest.raises(StudentError):
        keeping.food_code(table, aw, ph, error)


# FDA Bad Bug Book 1992, factors table; Listeria: three of five strains at 0.90 (Farber, Coates & Daley 1992).
@pytest.mark.parametrize(
    ("organism", "grows_at", "not_at"),
    [("Listeria monocytogenes", 0.90, 0.89), ("Clostridium perfringens", 0.93, 0.92)],
)
def test_growth_limits_named_in_the_sources(organism, grows_at, not_at):
    assert organism in {limit.organism for limit in keeping.growth(grows_at).can_grow}
    assert organism not in {limit.organism for limit in keeping.growth(not_at).can_grow}


def test_a_growth_limit_is_not_widened_by_rounding():
    # 0.8251 prints as 0.83, where Staphylococcus aureus can grow.
    assert "Staphylococcus" in keeping.growth(0.8251).sentence and "0.83" in keeping.growth(0.8251).sentence


def test_growth_takes_the_careful_end():
    grows = {limit.organism for limit in keeping.growth(0.84).can_grow}
    assert "Staphylococcus aureus" in grows and "Salmonella" not in grows
    guess = keeping.Estimate(0.82, 0.79, 0.85, "a guess")
    assert keeping.growth(guess).can_grow == keeping.growth(0.85).can_grow
    assert keeping.growth(0.55).can_grow == ()
    assert keeping.growth(0.55).band == "no microbial growth"


@patient
@given(st.floats(0.01, 1), st.floats(0.01, 1))
def test_drier_never_lets_more_grow(one, other):
    drier, wetter = sorted((one, other))
    assert set(keeping.growth(drier).can_grow) <= set(keeping.growth(wetter).can_grow)


@patient
@given(st.floats(0.74, 0.90), st.floats(0.74, 0.90), st.floats(21, 27), st.floats(21, 27))
def test_mould_comes_sooner_wetter_and_warmer(aw1, aw2, t1, t2):
    (dry, wet), (cool, warm) = sorted((aw1, aw2)), sorted((t1, t2))

    def days(aw, t):
        return keeping.mould_free_days(aw, Q(t, "degC"), dairy=False).days

    assert days(wet, cool) <= days(dry, cool) * (1 + 1e-9)
    assert days(dry, warm) <= days(dry, cool) * (1 + 1e-9)


@pytest.mark.parametrize(
    ("aw", "temperature", "dairy", "said"),
    [
        (0.80, "21 degC", True, "with dairy"),
        (0.80, "21 degC", None, "without saying"),
        (0.73, "21 degC", False, "0.74"),
        (0.91, "21 degC", False, "0.9"),
        (0.80, "5 degC", False, "21"),
        (0.80, "35 degC", False, "27"),
    ],
)
def test_mould_free_days_refuse(aw, temperature, dairy, said):
    with pytest.raises(StudentError, match=said):
        keeping.mould_free_days(aw, temperature, dairy=dairy)


def test_an_estimate_widens_the_days():
    guess = keeping.Estimate(0.80, 0.78, 0.82, "a guess")
    wide, narrow = (keeping.mould_free_days(aw, "21 degC", dairy=False) for aw in (guess, 0.80))
    assert wide.low < narrow.low < narrow.high < wide.high
    # 10^(7.91 - 0.081 x 82) = 18.5 days at the high end, by hand: that is what is said first.
    assert wide.days == pytest.approx(18.5, abs=0.1) and wide.sentence.startswith(
        "At the high end, 0.82: about 18 days"
    )
    with pytest.raises(StudentError):
        keeping.mould_free_days(keeping.Estimate(0.80, 0.70, 0.90, "too wide"), "21 degC", dairy=False)


def everything_said():
    guess = wa.estimate(SYRUP)
    yield from (
        guess,
        keeping.growth(guess),
        keeping.growth(0.5),
        keeping.low_acid(0.8, 5, 0.01),
        keeping.low_acid(0.9, 5, 0.01),
    )
    for aw in (0.5, 0.87, 0.93):
        yield keeping.food_code("B", aw, 5.5, 0.01)
    yield keeping.mould_free_days(0.8, "21 degC", dairy=False)


def test_every_result_carries_the_caution_and_none_says_safe():
    for result in everything_said():
        assert str(result).endswith(keeping.CAUTION)
        assert not re.search(r"\b(un)?safe", str(result), re.IGNORECASE)
