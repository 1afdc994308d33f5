"""Boiling sugar: vapour pressure of water, boiling points of syrups, altitude."""

import numpy as np

from pastrylab.ground.constants import WATER_MOLAR_MASS, ZERO_CELSIUS
from pastrylab.ground.roots import bisect, plain
from pastrylab.ground.units import In, Quantity, Reading, Share, StudentError, takes
from pastrylab.trade.altitude import ALTITUDE, pressure_at
from pastrylab.trade.solutes import SOLUTES, as_pairs, mole_fractions

# IAPWS-IF97, region 4 (saturation line), table 34 of the release.
_N = (
    *(0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7),
    *(0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3),
)
_SEA_LEVEL = 101.325  # kPa
# Starzak & Peacock: ln gamma_w = Q/(R T) (1 + a x + b x^2) x^2, x the mole fraction of sucrose.
_Q, _A, _B, _R = -17638.0, -1.0038, -0.24653, 8.314462618
MOST_SOLIDS = 0.98
_HOTTEST = 250.0  # upper end of the search for a boiling point, degC
_SOLIDS = Share(at_most=MOST_SOLIDS, example='0.80 or "80 %"')
PRESSURE = In("kPa", at_least=5, at_most=200, example="95 kPa")


@takes(returns="kPa", temperature=Reading(at_least=0, at_most=300, example="100 degC"))
def saturation_pressure(temperature):
    """Vapour pressure of boiling water. temperature: reading, 0-300 degC. Returns kPa.

    Source: IAPWS-IF97, region 4, equation 30. Raises StudentError outside the range.

    >>> f"{saturation_pressure('100 degC').m_as('kPa'):.1f}"
    '101.4'
    """
    t = temperature + ZERO_CELSIUS
    v = t + _N[8] / (t - _N[9])
    a = v**2 + _N[0] * v + _N[1]
    b = _N[2] * v**2 + _N[3] * v + _N[4]
    c = _N[5] * v**2 + _N[6] * v + _N[7]
    return plain(1000.0 * (2 * c / (-b + np.sqrt(b**2 - 4 * a * c))) ** 4)


def _boils_at(kilopascal):
    """Saturation temperature in degC: IAPWS-IF97, region 4, equation 31."""
    beta = (kilopascal / 1000.0) ** 0.25
    e = beta**2 + _N[2] * beta + _N[5]
    f = _N[0] * beta**2 + _N[3] * beta + _N[6]
    g = _N[1] * beta**2 + _N[4] * beta + _N[7]
    d = 2 * g / (-f - np.sqrt(f**2 - 4 * e * g))
    return plain((_N[9] + d - np.sqrt((_N[9] + d) ** 2 - 4 * (_N[8] + _N[9] * d))) / 2 - ZERO_CELSIUS)


def _pressure(altitude, pressure):
    """kPa from an altitude in m or a pressure in kPa; sea level where neither is given."""
    if altitude is not None and pressure is not None:
        raise StudentError("an altitude and a pressure", "one of the two", "500 m")
    if pressure is not None:
        return pressure
    return _SEA_LEVEL if altitude is None else pressure_at.floats(altitude) / 10.0


@takes(arrays=True, returns="degC", altitude=ALTITUDE, pressure=PRESSURE)
def water_boiling_point(altitude=None, pressure=None):
    """Boiling point of water at an altitude (-450 to 5000 m) or a pressure (5-200 kPa); sea level where
    neither is given.

    Returns degC (99.97 at 101.325 kPa). Sources: IAPWS-IF97, region 4; US Standard Atmosphere 1976. Raises
    StudentError.

    >>> f"{water_boiling_point(altitude='1609 m').m_as('degC'):.1f}"
    '94.6'
    """
    return _boils_at(_pressure(altitude, pressure))


@takes(solids_share=_SOLIDS, temperature=Reading(at_least=-15, at_most=160, example="20 degC"))
def sucrose_water_activity(solids_share, temperature):
    """Water activity of a sucrose syrup at any temperature: a plain float.

    solids_share: sucrose by mass, up to 0.98. temperature: reading, -15 to 160 degC. Source: Starzak &
    Peacock 1997, Zuckerindustrie 122:380, coefficients as used by Starzak & Mathlouthi 2006 (-15 to 150
    degC). Raises StudentError.

    >>> f"{sucrose_water_activity(0.65, '20 degC'):.3f}"
    '0.865'
    """
    return plain(np.exp(_log_activity(solids_share, temperature)))


def _log_activity(solids_share, temperature):
    sugar = solids_share / SOLUTES["sucrose"].molar_mass
    x = sugar / (sugar + (1.0 - solids_share) / WATER_MOLAR_MASS)
    return np.log1p(-x) + _Q / (_R * (temperature + ZERO_CELSIUS)) * (1 + _A * x + _B * x**2) * x**2


def _log_pressure(log_activity, temperature):
    return log_activity + np.log(saturation_pressure.floats(temperature))


@takes(arrays=True, returns="degC", solids_share=_SOLIDS, altitude=ALTITUDE, pressure=PRESSURE)
def syrup_boiling_point(solids_share, altitude=None, pressure=None):
    """Boiling point of a sucrose syrup.

    solids_share: sucrose by mass, 0 to 0.98. altitude (-450 to 5000 m) or pressure (5-200 kPa); sea level
    where neither is given. Returns degC. The water activity of Starzak & Peacock times the vapour pressure of
    IAPWS-IF97 equals the air pressure. Good to 0.3 K up to 65 %, 0.8 K at 80 %, 3 K at 90 %; above 150 degC
    extrapolated. Raises StudentError.

    >>> f"{syrup_boiling_point(0.80).m_as('degC'):.1f}"
    '109.4'
    """
    log_air = np.log(_pressure(altitude, pressure))
    low = _boils_at(_pressure(altitude, pressure)) - 0.01
    share = np.asarray(solids_share, dtype=float)
    return bisect(lambda t: _log_pressure(_log_activity(share, t), t) - log_air, low, _HOTTEST)


@takes(
    arrays=True, temperature=Reading(at_least=30, at_most=200, example="114 degC"), altitude=ALTITUDE, pressure=PRESSURE
)
def solids_from_boiling(temperature, altitude=None, pressure=None):
    """Sucrose by mass in a boiling syrup, from its temperature: the inverse of syrup_boiling_point, a plain
    float.

    temperature: reading in the boil. altitude or pressure as syrup_boiling_point. Raises StudentError where
    no syrup of up to 98 % boils at that temperature.

    >>> f"{solids_from_boiling('110 degC'):.2f}"
    '0.81'
    """
    log_air = np.log(_pressure(altitude, pressure))
    at = np.asarray(temperature, dtype=float)
    coldest, hottest = (syrup_boiling_point.floats(w, altitude, pressure) for w in (0.0, MOST_SOLIDS))
    if np.any(at < coldest - 1e-3) or np.any(at > hottest + 1e-3):
        raise StudentError(
            f"a boil at {np.max(at) if np.any(at > hottest) else np.min(at):.1f} °C",
            f"a temperature at which syrup boils there, {np.max(coldest):.1f} to {np.min(hottest):.1f} °C: "
            "outside the model",
            "112 °C",
        )
    share = bisect(lambda w: log_air - _log_pressure(_log_activity(w, at), at), 0.0, MOST_SOLIDS)
    return share


@takes(altitude=ALTITUDE, pressure=PRESSURE)
def mixed_syrup_boiling_point(water, solutes, altitude=None, pressure=None):
    """Boiling point of a syrup of several sugars, such as invert syrup, as a quantity in degC.

    water: mass; solutes: {name: mass}. altitude or pressure as syrup_boiling_point. Norrish's mixture rule
    with K * 298.15 / T: within 0.5 K of Starzak & Peacock for sucrose up to 80 %, untested on mixtures.
    Raises StudentError without water.

    >>> f"{mixed_syrup_boiling_point('25 g', {'invert sugar': '75 g'}).m_as('degC'):.0f}"
    '110'
    """
    mass = In("g", at_least=0, example="60 g")
    pairs = [(s, mass.floats(s.name, m)) for s, m in as_pairs(solutes)]
    in_water, root_k = mole_fractions(In("g", above=0, example="40 g").floats("water", water), pairs)
    log_air = np.log(_pressure(altitude, pressure))

    def excess(t):
        return _log_pressure(np.log(in_water) - root_k**2 * (25.0 + ZERO_CELSIUS) / (t + ZERO_CELSIUS), t) - log_air

    if excess(_HOTTEST) < 0:
        raise StudentError(
            "a mix with hardly any water", "a syrup: outside the model", "20 g of water with 80 g of sugars"
        )
    return Quantity(bisect(excess, _boils_at(_pressure(altitude, pressure)) - 0.01, _HOTTEST), "degC")
