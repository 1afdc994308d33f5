"""Tempering against published figures and the facts of the trade."""

import math

import pytest

from pastrylab.ground.units import Q
from pastrylab.trade import chocolate, holding, tempering

BECKETT = (
    "Beckett (ed.), Industrial Chocolate Manufacture and Use, 4th ed. 2009, Useful Physical Constants, pp. 667-668"
)
BALANCE = f"heat balance by hand on the constants of {BECKETT}"
MCGEE = "McGee, On Food and Cooking, 2004, tempering table (read in extracts)"
PRACTICE = "common practice, no source"


@pytest.mark.parametrize(
    ("name", "expected", "got", "tolerance"),
    [
        ("latent heat of dark chocolate, kJ/kg", 46, lambda: chocolate.LATENT_HEAT["dark"], 0.5),
        ("latent heat of milk chocolate, kJ/kg", 44, lambda: chocolate.LATENT_HEAT["milk"], 0.5),
        ("heat capacity of chocolate 15-40 °C, kJ/(kg K)", 1.59, lambda: chocolate.SPECIFIC_HEAT, 0.005),
    ],
)
def test_constants(outside, name, expected, got, tolerance):
    outside(quantity=name, expected=expected, got=got(), tolerance=tolerance, source=BECKETT)


@pytest.mark.parametrize(
    ("share", "expected", "tolerance"), [(1.0, 0.2410, 0.002), (0.0, 0.5200, 0.0005), (0.5, 0.3294, 0.002)]
)
def test_seed_share_of_the_total(outside, share, expected, tolerance):
    seed = tempering.seed_mass("1 kg", "45 degC", "20 degC", "32 degC", kind="dark", melted_share=share).m_as("kg")
    outside(
        quantity=f"seed share of the whole, 45 to 32 °C, {share:.0%} of the seed melts",
        expected=expected,
        got=seed / (1 + seed),
        tolerance=tolerance,
        source=BALANCE,
    )


def test_mixture_temperature(outside):
    end = tempering.mixture_temperature("750 g", "45 degC", "250 g", "20 degC", kind="dark", melted_share=1.0)
    outside(
        quantity="750 g at 45 °C with 250 g seed at 20 °C, °C",
        expected=31.52,
        got=end.m_as("degC"),
        tolerance=0.11,
        source=BALANCE,
    )


@pytest.mark.parametrize(
    ("kind", "stage", "edge", "expected"),
    [
        ("dark", 0, 0, 45),
        ("dark", 0, 1, 50),
        ("dark", 1, 0, 28),
        ("dark", 1, 1, 29),
        ("dark", 2, 0, 31),
        ("dark", 2, 1, 32),
        ("milk", 0, 0, 40),
        ("milk", 0, 1, 45),
        ("milk", 1, 0, 27),
        ("milk", 2, 0, 30),
        ("milk", 2, 1, 31),
    ],
)
def test_bands(outside, kind, stage, edge, expected):
    got = chocolate.band(kind)[stage][edge].m_as("degC")
    name = f"{kind}: {('melt-out', 'cooling', 'working')[stage]} band, {('low', 'high')[edge]} end, °C"
    outside(quantity=name, expected=expected, got=got, tolerance=0.5, source=MCGEE)


def test_temper_lost(outside):
    source = "Greweling, Chocolates and Confections, 2007"
    outside(quantity="temper lost above, °C", expected=34, got=chocolate.TEMPER_LOST, tolerance=0.5, source=source)
    wille = "Wille & Lutton, Polymorphism of cocoa butter, JAOCS 43 (1966) 491-496, read in a table that quotes it"
    stand, lost = chocolate.crystals_stand_to("dark")
    outside(quantity="form V stands up to, °C", expected=33.8, got=stand, tolerance=0.05, source=wille)
    outside(quantity="form V lost above, °C", expected=34, got=lost, tolerance=0.05, source=source)
    outside(
        quantity="a bowl at 94.9 °F needs",
        expected="seed again",
        got=holding.next_step("dark", "94.9 degF").name,
        tolerance="exact",
        source=source,
    )


@pytest.mark.parametrize(
    ("kind", "milk_fat", "fat"), [("milk", 5.88, 36), ("milk", 6.14, 40), ("white", 6.6, 35), ("white", 5.6, 41)]
)
def test_temper_of_milk_and_white_is_lost_where_an_ideal_mixture_melts(outside, kind, milk_fat, fat):
    """ln x = -(heat / R)(1/T - 1/T_V): form V under liquid milk fat; 860 and 750 g/mol, 137 kJ/kg, from memory."""
    cocoa, milk = (fat - milk_fat) / 860, milk_fat / 750
    inverse = 1 / (33.8 + 273.15) - 8.314 / (137 * 860) * math.log(cocoa / (cocoa + milk))
    stand, lost = chocolate.crystals_stand_to(kind)
    melts = 1 / inverse - 273.15
    assert stand < melts
    outside(
        quantity=f"{kind} chocolate, {milk_fat:g} of {fat:g} % fat from milk: crystals lost above, °C",
        expected=round(melts, 2),
        got=lost,
        tolerance=0.5,
        source="ideal mixture on the form V of Wille & Lutton 1966, heat of melting from memory",
    )


def test_practice_on_set_points(outside):
    melt, _, work = chocolate.wide_band_floats("dark")
    outside(
        quantity="112 °F counts as melted out (low end of the widest band, °F)",
        expected=112,
        got=1.8 * melt[0] + 32,
        tolerance=0.1,
        source=PRACTICE,
    )
    for degrees in ("90 degF", "90.4 degF"):
        got = holding.next_step("dark", degrees).name
        outside(
            quantity=f"a dark bowl held at {degrees} needs",
            expected="work",
            got=got,
            tolerance="exact",
            source=PRACTICE,
        )
    assert work[0] <= Q("90 degF").m_as("degC") <= work[1]


def test_seed_habit_agrees_with_the_balance(outside):
    seed = tempering.seed_mass("1 kg", "45 degC", "20 degC", "32 degC", melted_share=0.95).m_as("kg")
    outside(
        quantity="seed as a share of the melt, 45 to 32 °C, most of it melting",
        expected=0.265,
        got=seed,
        tolerance=0.065,
        source=f"{PRACTICE}: 20-33 % of the melt, never a gate",
    )


def test_hand_sum_of_a_melt_out(outside):
    """2 kg from 20 to 45 °C: 2 x (1.59 x 25 + 46) kJ."""
    heat = tempering.heat_to_melt("2 kg", "20 degC", "45 degC").m_as("kJ")
    outside(
        quantity="heat to melt out 2 kg from 20 to 45 °C, kJ", expected=171.5, got=heat, tolerance=0.8, source=BALANCE
    )
