"""Cocoa butter, cooling and melting against published figures and a general-purpose library."""

import numpy as np
import pandas as pd
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import curve_fit

from pastrylab.ground import constants, datasets
from pastrylab.ground.units import Q
from pastrylab.logs import cooling
from pastrylab.trade import chocolate, crystals, holding

WILLE = "Wille & Lutton, Polymorphism of cocoa butter, JAOCS 43 (1966) 491-496, read in a table that quotes it"
PRACTICE = "common practice, no source"


@pytest.mark.parametrize(
    ("name", "melts_at"), [("I", 17.3), ("II", 23.3), ("III", 25.5), ("IV", 27.5), ("V", 33.8), ("VI", 36.3)]
)
def test_melting_points(outside, name, melts_at):
    """Where a form stops standing as a bowl is warmed, found by trying, against the printed point."""
    fates = {t: _fate(name, t) for t in np.arange(10, 45, 0.05)}
    surely = max(t for t, fate in fates.items() if fate == crystals.STAYS)
    perhaps = max(t for t, fate in fates.items() if fate in (crystals.STAYS, crystals.EDGE))
    outside(
        quantity=f"melting point of cocoa butter form {name}, °C",
        expected=melts_at,
        got=(surely + perhaps) / 2,
        tolerance=0.3,
        source=WILLE,
    )


def _fate(name, at):
    return next(form for form in crystals.forms_after.floats(at, at, at) if form.name == name).fate


def test_every_form_names_its_source():
    assert all("1966" in source for source in datasets.cocoa_butter()["source"])


def test_holding_uses_the_melting_point_of_form_five():
    five = datasets.cocoa_butter().by("form")["V"]
    assert constants.FORM_V_MELTS == five["melts_at"]
    assert chocolate.TEMPER_LOST - five["melts_at"] <= five["error"]


@pytest.mark.parametrize(("at", "expected", "tolerance"), [(20, 76, 6), (25, 70, 5), (30, 44, 10)])
def test_solid_cocoa_butter(outside, at, expected, tolerance):
    outside(
        quantity=f"solid share of West African cocoa butter at {at} °C, %",
        expected=expected,
        got=100 * crystals.solid_cocoa_butter(Q(at, "degC"))[1],
        tolerance=tolerance,
        source="pulsed NMR after tempering, Shukla 1995, from memory",
    )


def test_contraction_of_cocoa_butter(outside):
    outside(
        quantity="volume cocoa butter loses on setting, 0.89 to 0.975 g/cm3, %",
        expected=8.72,
        got=100 * crystals.contraction("0.89 g/mL", "0.975 g/mL"),
        tolerance=0.7,
        source="1 - liquid/solid on densities of Beckett, Industrial Chocolate Manufacture and Use, 3rd ed. 1999",
    )


def test_linear_contraction(outside):
    """The densities are those of wholly set fat; at 16 °C some of it is still liquid, which brings 3.0 % down."""
    solid = crystals.solid_cocoa_butter("16 degC")[1]
    outside(
        quantity="length that well seeded cocoa butter loses at 16 °C, %",
        expected=2.0,
        got=100 * crystals.linear(crystals.contraction(solid_share=solid)),
        tolerance=0.5,
        source="Lovegren & Feuge, JAOCS 1965, abstract: largest measured, about 2 %",
    )


def test_contraction_of_chocolate(outside):
    """By hand: 100 g with 35 g of fat fill 35/0.89 + 65/1.53 mL melted and 35/0.975 + 65/1.53 mL set."""
    melted, set_ = (35 / density + 65 / 1.53 for density in (0.89, 0.975))
    outside(
        quantity="volume chocolate of 35 % fat loses on setting, %",
        expected=100 * (1 - set_ / melted),
        got=100 * crystals.chocolate_contraction(0.35)[1],
        tolerance=0.01,
        source="volumes by hand on the densities of Beckett 1999; other solids 1.53 g/cm3 from memory",
    )


def test_bowl_capacity(outside):
    outside(
        quantity="loads of a small bowl for 11 kg, seed included",
        expected=3,
        got=holding.loads("11 kg").count,
        tolerance="exact",
        source=f"{PRACTICE}: 10 lb a bowl, a batch above it needs another load",
    )


def test_halving_time_against_scipy(outside):
    rng = np.random.default_rng(11)
    minutes = np.arange(0.0, 91.0, 3.0)
    for room, start, halving in ((18.0, 33.0, 45.0), (22.0, 50.0, 20.0), (4.0, 60.0, 35.0)):
        degrees = room + (start - room) * 0.5 ** (minutes / halving) + rng.normal(0, 0.03, len(minutes))
        fit = cooling.fit_halving(pd.DataFrame({"minutes": minutes, "degC": degrees}), Q(room, "degC"))
        last = int(np.argmin(degrees)) + 1
        found, covariance = curve_fit(
            lambda t, a, h, room=room: room + a * 0.5 ** (t / h), minutes[:last], degrees[:last], p0=(start - room, 30)
        )
        outside(
            quantity=f"halving time of a noisy log in a room of {room:g} °C, min",
            expected=found[1],
            got=fit.halving.m_as("min"),
            tolerance=1e-4 * found[1],
            source="scipy.optimize.curve_fit on the same readings",
        )
        assert fit.halving_error.m_as("min") == pytest.approx(covariance[1, 1] ** 0.5, rel=1e-3)


@pytest.mark.parametrize(("kind", "around"), [("dark", 50.0), ("milk", 42.0)])
def test_melting_time_against_an_integration(outside, kind, around):
    """Enthalpy marched through the plateau by scipy, against the closed form."""
    start, end, halving, melts = 18.0, 40.0, 60.0, 33.8
    span = chocolate.LATENT_HEAT[kind] / chocolate.SPECIFIC_HEAT

    def temperature(heat):  # heat over the start, in kelvin of sensible heat
        at = start + heat
        return at if at < melts else melts if at < melts + span else at - span

    def gains(_, heat):
        return [np.log(2) / halving * (around - temperature(heat[0]))]

    def done(_, heat):
        return temperature(heat[0]) - end

    done.terminal = True
    run = solve_ivp(gains, (0, 5000), [0.0], events=done, rtol=1e-9, atol=1e-9, max_step=1.0)
    outside(
        quantity=f"melting out {kind} from 18 to 40 °C in a cupboard at {around:g} °C, min",
        expected=run.t_events[0][0],
        got=holding.melting_time("18 degC", "40 degC", Q(around, "degC"), "60 min", kind).m_as("min"),
        tolerance=0.5,
        source="scipy.integrate.solve_ivp on the same enthalpies (Beckett 2009, Wille & Lutton 1966)",
    )
