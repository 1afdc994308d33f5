"""The doors of the trade: for every limit the last value let in and the first one turned away.

The limits are those the docstrings promise; the values beside them were written down by hand, each less than one step
beyond its limit, so that a limit moved by one unit or a tenth is noticed.
"""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade import composition, emulsion, mending, mixing, pantry, solutes, yields
from pastrylab.trade.formula import Formula
from pastrylab.trade.keeping import estimates, food_law, meter, mould, organisms
from pastrylab.trade.purchasing import packs, tools
from pastrylab.trade.sugars import (
    boiling,
    density,
    graining,
    inversion,
    invert_syrup,
    polarimetry,
    refractometer,
    solubility,
    stages,
    sweeteners,
)

SYRUP = {"sucrose": "60 g"}
MIXED = {"water": "40 g", "solutes": SYRUP}
HEATED = {"syrup": "1 kg", "ph": 3.0, "temperature": "100 degC", "time": "30 min"}
WEIGHED = {"sucrose": "700 g", "syrup": "980 g", "reading": 73.5}
BRUSH = {"name": "brush", "price": "$4", "life": 5}

# function, its other arguments, the argument, let in, turned away
DOORS = [
    (boiling.saturation_pressure, {}, "temperature", ["0 degC", "300 degC"], ["-0.5 degC", "300.5 degC"]),
    (boiling.pressure_at, {}, "altitude", ["-450 m", "5000 m"], ["-450.5 m", "5000.5 m"]),
    (boiling.water_boiling_point, {}, "altitude", ["-450 m", "5000 m"], ["-450.5 m", "5000.5 m"]),
    (boiling.water_boiling_point, {}, "pressure", ["5 kPa", "200 kPa"], ["4.5 kPa", "200.5 kPa"]),
    (boiling.water_boiling_point, {"altitude": "500 m"}, "pressure", [None], ["95 kPa"]),
    (boiling.sucrose_water_activity, {"temperature": "20 degC"}, "solids_share", [0, 0.98], [-0.01, 0.99]),
    (boiling.sucrose_water_activity, {"solids_share": 0.6}, "temperature", ["-15 degC", "160 degC"], ["-15.5 degC"]),
    (boiling.sucrose_water_activity, {"solids_share": 0.6}, "temperature", ["159.5 degC"], ["160.5 degC"]),
    (boiling.syrup_boiling_point, {}, "solids_share", [0, 0.98], [-0.01, 0.99]),
    (boiling.solids_from_boiling, {"pressure": "5 kPa"}, "temperature", ["35 degC"], ["29.5 degC", "30 degC"]),
    (boiling.solids_from_boiling, {}, "temperature", ["100 degC", "150 degC"], ["99.9 degC", "200 degC"]),
    (boiling.mixed_syrup_boiling_point, {"solutes": {"sucrose": "1 g"}}, "water", ["0.9 g", "40 g"], ["0 g", "-1 g"]),
    (
        boiling.mixed_syrup_boiling_point,
        {"water": "40 g"},
        "solutes",
        [{"sucrose": "0 g"}, {"sucrose": "60 g"}],
        [{"sucrose": "-0.5 g"}],
    ),
    (boiling.mixed_syrup_boiling_point, MIXED, "altitude", ["-450 m", "5000 m"], ["5000.5 m"]),
    (stages.stage_temperatures, {"stage": "soft ball"}, "altitude", ["-450 m", "5000 m"], ["-450.5 m", "5000.5 m"]),
    (stages.stage_temperatures, {}, "stage", ["Soft-Ball", "light caramel"], ["soft", "burnt"]),
    (solubility.sucrose_solubility, {}, "temperature", ["0 degC", "100 degC"], ["-0.5 degC", "100.5 degC"]),
    (solubility.sucrose_solubility_band, {}, "temperature", ["0 degC", "100 degC"], ["-0.5 degC", "100.5 degC"]),
    (
        solubility.sucrose_per_water,
        {"temperature": "20 degC"},
        "others",
        [None, {"glucose": 0}, {"glucose": 2000}],
        [{"glucose": -0.5}, {"glucose": 2000.5}, {"gold": 1}],
    ),
    (density.syrup_density, {}, "solids_share", [0, 0.85], [-0.01, 0.86]),
    (
        graining.graining_risk,
        {"water": "100 g", "sugars": {"sucrose": "200 g"}},
        "temperature",
        ["0 degC", "40 degC"],
        ["-0.5 degC", "40.5 degC"],
    ),
    (
        graining.graining_risk,
        {"sugars": {"sucrose": "1 g"}, "temperature": "18 degC"},
        "water",
        ["0.9 g"],
        ["0 g", "-1 g"],
    ),
    (
        graining.graining_risk,
        {"water": "100 g", "temperature": "18 degC"},
        "sugars",
        [{"sucrose": "0 g"}, {"sucrose": "0.5 g"}],
        [{"sucrose": "-0.5 g"}],
    ),
    (graining.honey_granulation, {"water_share": 0.2}, "glucose_share", [0, 0.6], [-0.01, 0.61]),
    (graining.honey_granulation, {"glucose_share": 0.3}, "water_share", [0.1, 0.3], [0.099, 0.31]),
    (
        sweeteners.swap,
        {"old": "granulated sugar", "new": "honey"},
        "amount",
        ["0.5 g", "100 g"],
        ["0 g", "-1 g"],
    ),
    (
        sweeteners.swap,
        {"amount": "100 g", "new": "honey"},
        "old",
        [{"sucrose": 1}, {"sucrose": 0.5, "water": 0.501}],
        [{"sucrose": 0.6, "water": 0.402}, {"sucrose": 1.1}],
    ),
    (inversion.water_taken_up, {"share": 1}, "sucrose", ["0.5 g"], ["0 g"]),
    (inversion.water_taken_up, {"sucrose": "100 g"}, "share", [0, 1], [-0.01, 1.01]),
    (
        inversion.inversion_rate,
        {"temperature": "80 degC", "solids_share": 0.7},
        "ph",
        [1, 8],
        [0.5, 8.5],
    ),
    (
        inversion.inversion_rate,
        {"ph": 3, "solids_share": 0.7},
        "temperature",
        ["0 degC", "125 degC"],
        ["-0.5 degC", "125.5 degC"],
    ),
    (inversion.inversion_rate, {"ph": 3, "temperature": "80 degC"}, "solids_share", [0, 0.92], [-0.01, 0.93]),
    (inversion.inverted_share, {"rate": "0.02 1/min"}, "time", ["0.5 min"], ["0 min"]),
    (inversion.inverted_share, {"time": "30 min"}, "rate", ["0.02 1/min"], ["0 1/min"]),
    (inversion.time_to_invert, {"rate": "0.02 1/min"}, "share", [0, 0.99], [-0.01, 1]),
    (
        invert_syrup.invert_class,
        {"dry_matter": 0.7, "invert_of_dry_matter": 0.6},
        "fructose_to_glucose",
        [0.5, 10],
        [0, 10.5],
    ),
    (invert_syrup.soda_for, {"ph": 5.5}, "acid", ["0.5 g"], ["0 g"]),
    (invert_syrup.soda_for, {"acid": "1 g"}, "ph", [4, 7], [3.5, 7.5]),
    (solutes.glucose_syrup_solids, {}, "de", [20, 45], [19.5, 45.5]),
    (yields.yield_after, {}, "trim", [0, 0.99], [-0.01, 1, 1.01]),
    (yields.yield_after, {}, "cooking", [0, 0.99], [-0.01, 1, 1.01]),
    (yields.purchase, {"yield_share": 0.5}, "edible", ["0.5 g"], ["0 g"]),
    (yields.purchase, {"edible": "1 kg"}, "yield_share", [0.5, 1], [0, 1.01]),
    (pantry.mass_of, {"ingredient": "heavy cream"}, "volume", ["0 mL", "0.5 mL"], ["-0.5 mL"]),
    (emulsion.boil_off, {"after": "0.5 g"}, "before", ["0.5 g", "0.9 g"], ["0 g"]),
    (emulsion.boil_off, {"before": "1 g"}, "after", ["0.5 g", "1 g"], ["0 g", "1.1 g", "0.3 g"]),
    (mould.mould_free_days, {"aw": 0.8, "dairy": False}, "temperature", ["21 degC", "27 degC"], ["20.5 degC"]),
    (mould.mould_free_days, {"aw": 0.8, "dairy": False}, "temperature", ["26.5 degC"], ["27.5 degC"]),
    (mould.mould_free_days, {"temperature": "21 degC", "dairy": False}, "aw", [0.74, 0.90], [0.739, 0.901]),
    (mould.mould_free_days, {"aw": 0.8, "temperature": "21 degC"}, "dairy", [False], [True, None, 0]),
    (food_law.food_code, {"table": "B", "ph": 5, "meter_error": 0}, "aw_reading", [0.01, 1], [0, 1.01]),
    (food_law.food_code, {"table": "B", "aw_reading": 0.9, "meter_error": 0}, "ph", [1, 10], [0.5, 10.5]),
    (food_law.food_code, {"table": "B", "aw_reading": 0.9, "ph": 5}, "meter_error", [0, 0.05], [-0.01, 0.051]),
    (
        food_law.food_code,
        {"table": "B", "aw_reading": 0.9, "ph": 5, "meter_error": 0},
        "ph_error",
        [0, 1],
        [-0.1, 1.5],
    ),
    (food_law.food_code, {"aw_reading": 0.9, "ph": 5, "meter_error": 0}, "table", ["a", "Table B"], ["C", ""]),
    (food_law.low_acid, {"aw_reading": 0.9, "meter_error": 0}, "ph", [1, 10], [0.5, 10.5]),
    (food_law.low_acid, {"ph": 5, "meter_error": 0}, "aw_reading", [0.01, 1], [0, 1.01]),
    (organisms.growth, {}, "aw", [0.01, 1], [0, 1.01]),
    (organisms.spoilage_band, {}, "aw", [0.01, 1], [0, 1.01]),
    (
        meter.against_meter,
        {"estimate": estimates.Estimate(0.85, 0.82, 0.88, "a ganache"), "reading": 0.86},
        "meter_error",
        [0, 0.05],
        [-0.01, 0.051],
    ),
    (tools.Tool.of, {"name": "brush", "price": "$4"}, "life", [1, 25], [0, 0.5, 1.5]),
    (tools.tool_cost, {"tool": tools.Tool.of(**BRUSH)}, "uses", [1, 25], [0, 1.5]),
    (packs.whole_number, {"name": "pieces"}, "value", [1, 48], [0, 1.5]),
    (packs.usable_share, {}, "value", ["1 %", 1], [0, 1.01]),
    (
        mending.mend,
        {"formula": Formula({"butter": "100 g"}), "move": "water"},
        "targets",
        [{"fat": (0, 1)}, {"fat": (0.5, 0.5)}, {"fat": (None, 0.5)}],
        [{"fat": (-0.1, 1)}, {"fat": (0, 1.1)}, {"fat": (0.6, 0.5)}, {"fat": (None, None)}, {"salt": (0, 1)}, {}],
    ),
    (
        composition.compositions,
        {"names": ["water", "granulated sugar"]},
        "grams",
        [[[0.0, 0.5]]],
        [[[0.0, 0.0]], [[-1.0, 2.0]], [[1.0]], [1.0, 1.0], [[float("nan"), 1.0]]],
    ),
    *[
        (refractometer.compare_with_scale, WEIGHED, arg, inside, outside)
        for arg, inside, outside in (
            ("reading", [0, 95], [-0.5, 95.5]),
            ("inverted", [0, 1], [-0.01, 1.01]),
            ("inverted_error", [0, 0.5], [-0.01, 0.51]),
            ("scale_error", ["0 g", "0.5 g"], ["-0.5 g"]),
            ("reading_error", [0, 5], [-0.1, 5.5]),
            ("sucrose", ["0.5 g", "700 g"], ["0 g", "940 g"]),
        )
    ],
    (refractometer.compare_with_scale, {**WEIGHED, "sucrose": "0.5 g"}, "syrup", ["0.9 g"], ["0 g"]),
    (invert_syrup.invert_plan, {"share": 0.9}, "syrup", ["0.5 g"], ["0 g"]),
    (invert_syrup.invert_plan, {"syrup": "1 kg", "share": 0.9}, "solids_share", [0.5, 0.85], [0.49, 0.86]),
    (invert_syrup.invert_plan, {"syrup": "1 kg"}, "share", [0.01, 1], [0, 1.01, None]),
    *[
        (invert_syrup.invert_plan, HEATED, arg, inside, outside)
        for arg, inside, outside in (
            ("ph", [1, 8], [0.5, 8.5, None]),
            ("temperature", ["40 degC", "120 degC"], ["39.5 degC", "120.5 degC", None]),
            ("time", ["0.5 min"], ["0 min", None]),
            ("share", [None], [0.9]),
            ("cooking_solids", [0.3, 0.85], [0.29, 0.86]),
        )
    ],
    (polarimetry.inversion_from_rotation, {"now": 0}, "before", [0.5, 180], [0, 180.5]),
    (polarimetry.inversion_from_rotation, {"before": 180}, "now", [180, -56.7], [180.5, -60.5]),
    (polarimetry.rotation_after, {"share": 0.5}, "before", [0.5, 180], [0, 180.5]),
    (polarimetry.rotation_after, {"before": 20}, "share", [0, 1], [-0.01, 1.01]),
    (mixing.specific_heat, {"of": "water"}, "temperature", ["0 degC", "150 degC"], ["-0.5 degC", "150.5 degC"]),
]


def _each(column):
    return [
        pytest.param(function, {**others, name: value}, id=f"{function.__name__}-{name}-{value}"[:90])
        for function, others, name, *values in DOORS
        for value in values[column]
    ]


@pytest.mark.parametrize(("function", "given"), _each(0))
def test_the_last_value_let_in(function, given):
    assert function(**given) is not None


@pytest.mark.parametrize(("function", "given"), _each(1))
def test_the_first_value_turned_away(function, given):
    with pytest.raises(StudentError):
        function(**given)
