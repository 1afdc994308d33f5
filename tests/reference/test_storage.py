"""Moist air against sources that know nothing of the library it is reckoned with."""

import math

import pytest
from iapws import IAPWS97
from iapws._iapws import _Sublimation_Pressure

from pastrylab.trade.storage import coldest_surface, dew_point, surface_humidity, vapour_pressure, water_in_air

# Dew points by CoolProp 8.0.0, HAPropsSI at 101325 Pa, checked to 0.004 K against ASHRAE Fundamentals 2017.
DEW_POINTS = [
    *((20, 40, 6.00), (20, 50, 9.27), (20, 60, 12.01), (20, 70, 14.37)),
    *((22, 50, 11.11), (22, 60, 13.89), (25, 50, 13.86), (25, 70, 19.15)),
]
IF97 = "IAPWS-IF97, region 4, by the package iapws"
MAGNUS = "Magnus formula, Alduchov & Eskridge 1996, J. Appl. Meteorol. 35:601: 6.1094 exp(17.625 t / (243.04 + t)) hPa"


def magnus(celsius):
    return 6.1094 * math.exp(17.625 * celsius / (243.04 + celsius))


def by_iapws(celsius):
    return IAPWS97(T=celsius + 273.15, x=0).P * 10_000 if celsius >= 0.01 else None


def by_ice(celsius):
    return _Sublimation_Pressure(celsius + 273.15) * 10_000


@pytest.mark.parametrize(("air", "percent", "expected"), DEW_POINTS)
def test_dew_points(outside, air, percent, expected):
    outside(
        quantity=f"dew point of air at {air} degC, {percent} %, degC",
        expected=expected,
        got=dew_point(f"{air} degC", f"{percent} %").m_as("degC"),
        tolerance=0.01,
        source="CoolProp 8.0.0 HAPropsSI at 101325 Pa",
    )


@pytest.mark.parametrize(("air", "percent", "expected"), DEW_POINTS)
def test_dew_points_by_a_second_formula(outside, air, percent, expected):
    g = math.log(percent / 100) + 17.625 * air / (243.04 + air)
    outside(
        quantity=f"dew point of air at {air} degC, {percent} %, degC",
        expected=243.04 * g / (17.625 - g),
        got=dew_point(f"{air} degC", percent / 100).m_as("degC"),
        tolerance=0.03,
        source=MAGNUS,
    )


@pytest.mark.parametrize(
    ("surface", "air", "percent", "wet"), [(10, 22, 50, True), (12, 20, 50, False), (5, 22, 40, True)]
)
def test_where_water_settles(outside, surface, air, percent, wet):
    outside(
        quantity=f"water settles at {surface} degC in air of {air} degC, {percent} %",
        expected=wet,
        got=surface_humidity(f"{surface} degC", f"{air} degC", f"{percent} %") > 1,
        tolerance="exact",
        source="dew points by CoolProp 8.0.0; margins exceed 0.5 K",
    )


@pytest.mark.parametrize("celsius", [1, 5, 10, 15, 20, 25, 30, 50])
def test_what_saturates_air(outside, celsius):
    outside(
        quantity=f"pressure of saturated vapour at {celsius} degC, hPa",
        expected=by_iapws(celsius),
        got=vapour_pressure(f"{celsius} degC").m_as("hPa"),
        tolerance=0.0006 * by_iapws(celsius),
        source=IF97,
    )


@pytest.mark.parametrize("celsius", [-30, -18, -5])
def test_what_saturates_air_over_ice(outside, celsius):
    outside(
        quantity=f"pressure of vapour over ice at {celsius} degC, hPa",
        expected=by_ice(celsius),
        got=vapour_pressure(f"{celsius} degC").m_as("hPa"),
        tolerance=0.002 * by_ice(celsius),
        source="IAPWS R14-08(2011), sublimation curve, by the package iapws",
    )


@pytest.mark.parametrize(
    ("surface", "air", "percent"), [(4, 18, 40), (10, 22, 55), (15, 22, 55), (17, 25, 60), (28, 20, 50)]
)
def test_humidity_at_a_surface(outside, surface, air, percent):
    outside(
        quantity=f"humidity at {surface} degC in air of {air} degC, {percent} %",
        expected=percent / 100 * by_iapws(air) / by_iapws(surface),
        got=surface_humidity(f"{surface} degC", f"{air} degC", f"{percent} %"),
        tolerance=0.0005,
        source=IF97,
    )


@pytest.mark.parametrize(("air", "percent", "limit"), [(22, 55, 78), (20, 60, 82), (25, 45, 78), (20, 90, 78)])
def test_the_coldest_surface(outside, air, percent, limit):
    found = coldest_surface(f"{air} degC", f"{percent} %", f"{limit} %").m_as("degC")
    outside(
        quantity=f"humidity at the coldest surface for {limit} % in air of {air} degC, {percent} %",
        expected=limit / 100,
        got=percent / 100 * magnus(air) / magnus(found),
        tolerance=0.002,
        source=MAGNUS,
    )


@pytest.mark.parametrize(
    ("celsius", "pascal"),
    [(0, 610.8), (5, 871.9), (10, 1227), (15, 1704), (20, 2337), (25, 3167), (30, 4243)],
)  # fmt: skip
def test_a_printed_table_of_saturated_air(outside, celsius, pascal):
    outside(
        quantity=f"pressure of saturated vapour at {celsius} degC, Pa",
        expected=pascal,
        got=vapour_pressure(f"{celsius} degC").m_as("Pa"),
        tolerance=0.0012 * pascal,
        source="engineeringtoolbox.com, Moist Air Properties, read; its rows over ice are less exact and left out",
    )


@pytest.mark.parametrize(("celsius", "ratio"), [(5, 0.0054), (10, 0.0077), (20, 0.015), (25, 0.020), (30, 0.027)])
def test_a_printed_table_of_the_water_in_saturated_air(outside, celsius, ratio):
    """Dry air is what the ideal gas says is left: 28.966 g/mol at 101.325 kPa less the vapour."""
    kelvin, litres = celsius + 273.15, 1000
    dry = (101325 - by_iapws(celsius) * 100) * litres / 1000 / (8.314462618 * kelvin) * 28.966
    outside(
        quantity=f"water with a gram of dry air, saturated at {celsius} degC",
        expected=ratio,
        got=water_in_air(f"{litres} L", f"{celsius} degC", "100 %").m_as("g") / dry,
        tolerance=0.0005 if ratio > 0.01 else 0.0001,
        source="engineeringtoolbox.com, Moist Air Properties, read; to its rounding",
    )
