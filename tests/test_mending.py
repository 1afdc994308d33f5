"""Mending a formula against general-purpose optimisers: what is mended lies in its bands, what is refused cannot be."""

import math

import numpy as np
import pytest
from depth import depth
from scipy.optimize import linprog, minimize

from pastrylab.ground import datasets
from pastrylab.ground.units import StudentError
from pastrylab.trade import emulsion, mending
from pastrylab.trade.formula import Formula
from pastrylab.trade.mending_activity import activity
from pastrylab.trade.water_activity import estimate

pytestmark = pytest.mark.usefixtures("one_look")

NAMES = (
    *("dark couverture 64 %", "dark chocolate 70-85 %", "milk couverture 38 %", "white couverture 32 %"),
    *("heavy cream 36 %", "whole milk", "skim milk", "butter unsalted", "cocoa butter", "invert syrup"),
    *("glucose syrup DE 42", "honey", "granulated sugar", "water", "raspberry puree"),
)
SUGARS = ["sucrose", "glucose", "fructose", "lactose", "maltose"]
HALF, SAME = "the batch at least 0.5 times as heavy as before", "the batch as heavy as before"


def shares(component, names):
    """The share of a component in each ingredient, from the table."""
    rows, parts = datasets.ingredients(), SUGARS if component == "sugars" else [component]
    return np.array([sum(rows[name][part] for part in parts) for name in names])


def share(formula, component):
    grams = formula.grams
    return float(shares(component, grams) @ np.array(list(grams.values())) / math.fsum(grams.values()))


def conditions(grams, bands, move, keep):
    """(names, [(word, a, b) meaning a . masses <= b]) of a case, masses in g."""
    names = list({**dict.fromkeys(move, 0.0), **grams})
    total, ones, rows = math.fsum(grams.values()), np.ones(len(names)), []
    for component, (low, high) in bands.items():
        held = shares(component, names)
        if low is not None:
            rows.append((f"{component} at least {100 * low:.3g} %", low - held, 0.0))
        if high is not None:
            rows.append((f"{component} at most {100 * high:.3g} %", held - high, 0.0))
    if keep:
        rows += [(SAME, ones, total), (SAME, -ones, -total)]
    else:
        rows.append((HALF, -ones, -0.5 * total))
    return names, rows


def possible(grams, bands, move, keep, words=None):
    """Whether these conditions, or those of some words, can hold at once for a formula that weighs anything at all."""
    names, rows = conditions(grams, bands, move, keep)
    kept = [(a, b) for word, a, b in rows if words is None or word in words]
    kept.append((-np.ones(len(names)), -0.01 * math.fsum(grams.values())))
    bounds = [(0, None) if name in move else (grams[name], grams[name]) for name in names]
    a, b = zip(*kept, strict=True)
    return linprog(np.zeros(len(names)), A_ub=np.array(a), b_ub=b, bounds=bounds, method="highs").status == 0


def case(random):
    """A made-up formula, bands and what may move: all of it, some of it, or new ingredients too."""
    count = int(random.integers(2, 6))
    names = [str(name) for name in random.choice(NAMES, count, replace=False)]
    grams = {name: float(round(random.uniform(5, 600), 1)) for name in names}
    way = random.integers(0, 3)
    move = names if way == 0 else names[: random.integers(1, count + 1)]
    if way == 2:
        move = list(dict.fromkeys([*move, *(str(name) for name in random.choice(NAMES, 2, replace=False))]))
    bands = {}
    for component in ("water", "fat", "sugars"):
        if random.random() < 0.7:
            low = round(random.uniform(0, 0.6), 3)
            high = round(low + float(random.choice([0.01, 0.05, 0.1, 0.2])), 3)
            bands[component] = [(None, high), (low, None), (low, high), (low, high)][random.integers(0, 4)]
    return grams, bands or {"fat": (None, 0.2)}, move, bool(random.random() < 0.25)


def test_mended_where_it_can_be_and_only_there(outside):
    """Random cases, half of them with every ingredient free to move."""
    cases = depth(150, 600)
    random, wrong = (
        np.random.default_rng(11),
        {"verdict": 0, "outside its bands": 0, "clash that is none": 0, "words": 0},
    )
    seen = {"mended": 0, "clash": 0, "all movable": 0}
    for _ in range(cases):
        grams, bands, move, keep = case(random)
        mended = mending.mend(Formula.of_grams(grams), bands, move, keep)
        seen["all movable"] += set(move) >= set(grams)
        seen["mended" if mended else "clash"] += 1
        wrong["verdict"] += bool(mended) != possible(grams, bands, move, keep)
        if mended:
            total, before = mended.formula.total_grams, math.fsum(grams.values())
            held = all(
                (low is None or share(mended.formula, name) >= low - 1e-9)
                and (high is None or share(mended.formula, name) <= high + 1e-9)
                for name, (low, high) in bands.items()
            )
            weighs = abs(total / before - 1) < 1e-6 if keep else total >= 0.5 * before * (1 - 1e-9)
            still = all(mended.formula.grams.get(name, 0.0) == grams[name] for name in set(grams) - set(move))
            wrong["outside its bands"] += not (held and weighs and still)
        else:
            wrong["clash that is none"] += possible(grams, bands, move, keep, mended.clashes)
            fewer = [[word for word in mended.clashes if word != one] for one in mended.clashes]
            wrong["words"] += not all(possible(grams, bands, move, keep, words) for words in fewer)
    assert min(seen.values()) > 0.3 * cases
    for what, count in wrong.items():
        outside(
            quantity=f"mending, {cases} random cases: {what}",
            expected=0,
            got=count,
            tolerance="exact",
            source="scipy.optimize.linprog (HiGHS) on the table of ingredients",
        )


def test_a_smaller_batch_is_no_mending():
    """Neither chocolate nor cream has less than 36 % of fat: no mix of the two has."""
    formula = Formula({"dark couverture 64 %": "400 g", "heavy cream": "100 g"})
    mended = mending.mend(formula, {"fat": (0.10, 0.20)}, ["dark couverture 64 %", "heavy cream"])
    assert not mended and mended.clashes == ("fat at most 20 %",) and "this cannot hold" in mended.sentence


def test_at_least_half_the_batch_is_left():
    """10 g of butter stay: 30 % of fat wants about 27 g of the whole, and half of the batch is 255 g."""
    formula = Formula({"butter": "10 g", "skim milk": "500 g"})
    mended = mending.mend(formula, {"fat": (0.30, None)}, ["skim milk"])
    assert mended.clashes == ("fat at least 30 %", HALF)


@pytest.mark.parametrize("edge", [(0.38, None), (0.38, 0.38)])
def test_a_band_whose_edge_alone_can_be_reached_is_reached(edge):
    fat = float(datasets.ingredients()["milk couverture 38 %"]["fat"])
    band = tuple(None if end is None else fat for end in edge)
    formula = Formula({"milk couverture 38 %": "300 g", "heavy cream": "300 g"})
    mended = mending.mend(formula, {"fat": band}, ["heavy cream", "milk couverture 38 %"])
    assert list(mended.formula.grams) == ["milk couverture 38 %"] and "take away all 300 g" in mended.sentence.lower()
    assert mended.changes["heavy cream 36 %"].m_as("g") == -300


def test_a_hair_outside_a_band_is_outside():
    """0.04 g short of its water is little to add, and still to be added."""
    formula = Formula({"skim milk": "100 g", "granulated sugar": "300 g"})
    low = share(Formula({"skim milk": "100.04 g", "granulated sugar": "300 g"}), "water")
    mended = mending.mend(formula, {"water": (low, None)}, "skim milk")
    assert mended.changes["skim milk"].m_as("g") == pytest.approx(0.04, abs=0.001) and "Add 0.04" in mended.sentence


def nearest(grams, bands, move, keep):
    """The least distance scipy's SLSQP finds, in g."""
    names, rows = conditions(grams, bands, move, keep)
    start, total = np.array([grams.get(name, 0.0) for name in names]), math.fsum(grams.values())
    at = [names.index(name) for name in move]

    def whole(x):
        masses = start.copy()
        masses[at] = x * total
        return masses

    limits = [
        {"type": "ineq", "fun": lambda x, a=a, b=b: (b - a @ whole(x)) / total, "jac": lambda x, a=a: -a[at]}
        for _, a, b in rows
    ]
    before, found = start[at] / total, []
    for away in (0.0, 0.3, 1.0):
        made = minimize(
            lambda x: ((x - before) ** 2).sum(),
            before + away,
            jac=lambda x: 2 * (x - before),
            constraints=limits,
            bounds=[(0, None)] * len(at),
            tol=1e-14,
        )
        if made.success and min(limit["fun"](made.x) for limit in limits) > -1e-7:
            found.append(made.fun**0.5 * total)
    return min(found, default=math.nan)


def test_no_smaller_change_is_found_by_another_way(outside):
    random, more, tried = np.random.default_rng(3), [], 0
    while tried < 60:
        grams, bands, move, keep = case(random)
        mended = mending.mend(Formula.of_grams(grams), bands, move, keep)
        least = nearest(grams, bands, move, keep) if mended else math.nan
        if not math.isnan(least):
            moved = [mended.formula.grams.get(name, 0.0) - grams.get(name, 0.0) for name in move]
            more.append((math.hypot(*moved) - least) / max(least, 1.0))
            tried += 1
    outside(
        quantity="mending, 60 random cases: how much more is moved than need be, at worst",
        expected=0,
        got=max(more),
        tolerance=1e-3,
        source="scipy.optimize.minimize, SLSQP, from three starts",
    )


# --- water activity ---------------------------------------------------------------------------------------


def test_at_most_means_the_careful_end_of_the_estimate():
    formula = emulsion.fillings()["dark"]
    mended = mending.mend(formula, {"water activity": (None, 0.88)}, ["invert syrup", "heavy cream"])
    found = estimate(mended.formula.composition())
    assert 0.8795 <= found.high <= 0.88 and found.value < 0.86 and found.sentence in mended.sentence
    assert activity(mended.formula) == found.value
    grown = sum(change.m_as("g") ** 2 for change in mended.changes.values())
    syrup_only = mending.mend(formula, {"water activity": (None, 0.88)}, "invert syrup")
    assert grown <= sum(change.m_as("g") ** 2 for change in syrup_only.changes.values()) + 1e-6


def test_an_estimate_in_the_band_whose_error_is_not_is_not_in_the_band():
    formula = emulsion.fillings()["dark"]
    found = estimate(formula.composition())
    assert not mending.meets(formula, {"water activity": (None, found.value)})
    assert mending.meets(formula, {"water activity": (found.value, found.high)})


def test_what_is_mended_for_water_activity_lies_in_every_band():
    random, mended = np.random.default_rng(5), 0
    for _ in range(depth(20, 40)):
        grams, bands, move, keep = case(random)
        limit = round(random.uniform(0.78, 0.95), 3)
        bands = {**(bands if random.random() < 0.4 else {}), "water activity": (None, limit)}
        try:
            made = mending.mend(Formula.of_grams(grams), bands, move, keep)
        except StudentError:
            continue
        if made:
            mended += 1
            assert estimate(made.formula.composition()).high <= limit
            for name, (low, high) in bands.items():
                if name != "water activity":
                    held = share(made.formula, name)
                    assert (low is None or held >= low - 1e-9) and (high is None or held <= high + 1e-9)
        else:
            assert made.clashes
    assert mended >= depth(5, 10)


def test_water_activity_no_change_can_reach_is_a_clash():
    """Butter brings fat and hardly any water: the estimate cannot fall to 0.70."""
    mended = mending.mend(emulsion.fillings()["dark"], {"water activity": (None, 0.70), "fat": (None, 0.5)}, "butter")
    assert mended.clashes == ("water activity at most 0.7",) and "20 times" in mended.sentence


# --- words ------------------------------------------------------------------------------------------------


GANACHE = Formula({"dark couverture 64 %": "300 g", "heavy cream": "200 g", "invert syrup": "30 g", "butter": "30 g"})


def test_nothing_to_mend_changes_nothing():
    formula = emulsion.fillings()["dark"]
    mended = mending.mend(formula, emulsion.targets("fill"), ["heavy cream"])
    assert mended.formula == formula and mended.changes == {} and "Nothing to mend" in mended.sentence


def test_clashing_bands_are_named():
    formula = Formula({"dark chocolate 70-85 %": "500 g", "heavy cream": "200 g", "butter": "60 g"})
    mended = mending.mend(formula, {"water": (0.18, 0.25), "fat": (None, 0.40), "sugars": (None, 0.9)}, ["heavy cream"])
    assert not mended
    assert mended.clashes == ("water at most 25 %", "fat at most 40 %")
    assert mended.sentence.startswith("By moving heavy cream 36 % alone these cannot all hold: water at most 25 %; fat")


@pytest.mark.parametrize(
    ("targets", "move", "said"),
    [
        ({}, ["butter"], "at least one band"),
        ({"water": (0.3, 0.2)}, ["butter"], "low first"),
        ({"water": (20, 30)}, ["butter"], "from 0 to 1"),
        ({"water": (0.3, 1.5)}, ["butter"], "from 0 to 1"),
        ({"water": (math.nan, 0.3)}, ["butter"], "from 0 to 1"),
        ({"water": (None, None)}, ["butter"], "from 0 to 1"),
        ({"water": 0.3}, ["butter"], "two shares"),
        ({"water": ("some", 0.3)}, ["butter"], "two shares"),
        ({"crumb": (0.1, 0.2)}, ["butter"], "one of water, fat"),
        ({"water": (0.2, 0.3)}, [], "allow to change"),
        ({"water": (0.2, 0.3)}, ["gravel"], "not among the ingredients"),
        ("water", ["butter"], "at least one band"),
    ],
)
def test_mend_refuses(targets, move, said):
    with pytest.raises(StudentError, match=said) as caught:
        mending.mend(GANACHE, targets, move)
    assert "(" not in caught.value.example and "=" not in caught.value.example


@pytest.mark.parametrize(
    ("targets", "move"),
    [
        ({"Water": (0.2, 0.3)}, "butter"),
        ({"water": [0.2, 0.3]}, ("Butter", "Heavy cream")),
        ({"water_activity": (None, 0.95)}, ["invert syrup"]),
        ({"fat": (0, 1)}, ["butter"]),
        ({"fat": (None, 0.3)}, ["skim milk", "skim milk"]),
        ({"sugars": (0.3, None)}, ["honey"]),
        ({"fat": (0.42, 0.42)}, ["butter"]),
        ({"water": (0.1, 0.2), "fat": (0.2, 0.5), "sugars": (0.1, 0.6)}, ["dark couverture 64 %"]),
        ({"water": (0.3, None)}, ["water"]),
        ({"water": (0, 0.3), "fat": (None, 1.0)}, ["cocoa butter"]),
    ],
)
def test_mend_takes(targets, move):
    mended = mending.mend(GANACHE, targets, move)
    assert mended and mended.sentence.endswith(".")


def test_what_is_no_formula_cannot_be_mended():
    with pytest.raises(StudentError, match="a formula"):
        mending.mend({"butter": 3}, {"fat": (0, 1)}, "butter")


# --- weighed out ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fat", "exact", "weighed"),
    [
        # Water into 100 g of cocoa butter: 100 / 0.70 - 100 = 42.857 g; tenths of a gram below 50 g, whole grams above.
        ((None, 0.70), 42.857, 42.9),
        ((None, 0.6645), 50.489, 51),
        # Between 50.06 and 50.15 g there is no whole gram.
        ((0.6660, 0.6664), 50.060, 50.1),
    ],
)
def test_what_is_weighed_out_is_rounded_so_that_the_band_still_holds(fat, exact, weighed):
    butter = Formula({"cocoa butter": "100 g"})
    mended = mending.mend(butter, {"fat": fat}, "water")
    assert mended.formula.grams["water"] == pytest.approx(exact, abs=0.001)
    assert mended.changes["water"].m_as("g") == pytest.approx(exact, abs=0.001)
    assert mending.mend(butter, {"fat": fat}, "water", to_weigh=True).formula.grams["water"] == weighed


def test_a_batch_that_must_weigh_the_same_does_so_when_weighed_out():
    # 60 % of 200 g is fat, all of the cocoa butter's.
    half = Formula({"cocoa butter": "100 g", "water": "100 g"})
    mended = mending.mend(half, {"fat": (0.60, None)}, ["cocoa butter", "water"], keep_total=True, to_weigh=True)
    assert mended.formula.grams == {"cocoa butter": 120.0, "water": 80.0}


def test_the_nearest_rounding_is_tried_first():
    # By squares: 0.01 + 0.04, 0.01 + 0.64, 0.81 + 0.04 and 0.81 + 0.64.
    ways = mending._ways({"water": 80.1, "honey": 65.8}, {"water": 1.0, "honey": 1.0})
    assert [tuple(way.values()) for way in ways] == [(80, 66), (80, 65), (81, 66), (81, 65)]


@pytest.mark.parametrize(
    ("grams", "named"),
    [
        # What moves by less than 0.05 g is left out beside what moves by more, and named where nothing moves further.
        ({"water": 110.0, "honey": 100.048}, ["water"]),
        ({"water": 100.052, "honey": 100.04}, ["water"]),
        ({"water": 110.0, "honey": 100.052}, ["water", "honey"]),
        ({"water": 100.04, "honey": 100.03}, ["water", "honey"]),
    ],
)
def test_a_hair_is_not_weighed_beside_a_change(grams, named):
    before, after = Formula.of_grams({"water": 100.0, "honey": 100.0}), Formula.of_grams(grams)
    assert list(mending._mended(before, after, {}, ["water", "honey"]).changes) == named
