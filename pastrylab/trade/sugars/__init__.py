"""Sugars and syrups: solubility and graining, density, boiling, inversion, sweetness and swaps."""

from pastrylab.trade.sugars.boiling import (
    mixed_syrup_boiling_point,
    saturation_pressure,
    solids_from_boiling,
    sucrose_water_activity,
    syrup_boiling_point,
    water_boiling_point,
)
from pastrylab.trade.sugars.density import syrup_density
from pastrylab.trade.sugars.graining import HONEY_GRAINS, HONEY_STAYS, graining_risk, honey_granulation
from pastrylab.trade.sugars.inversion import (
    inversion_rate,
    invert_yield,
    inverted_share,
    time_to_invert,
    water_taken_up,
)
from pastrylab.trade.sugars.invert_syrup import invert_class, invert_plan, soda_for
from pastrylab.trade.sugars.polarimetry import inversion_from_rotation, rotation_after, specific_rotation
from pastrylab.trade.sugars.solubility import sucrose_per_water, sucrose_solubility, sucrose_solubility_band
from pastrylab.trade.sugars.stages import stage_temperatures
from pastrylab.trade.sugars.sweeteners import swap

__all__ = [
    "HONEY_GRAINS",
    "HONEY_STAYS",
    "graining_risk",
    "honey_granulation",
    "inversion_from_rotation",
    "inversion_rate",
    "invert_class",
    "invert_plan",
    "invert_yield",
    "inverted_share",
    "mixed_syrup_boiling_point",
    "rotation_after",
    "saturation_pressure",
    "soda_for",
    "solids_from_boiling",
    "specific_rotation",
    "stage_temperatures",
    "sucrose_per_water",
    "sucrose_solubility",
    "sucrose_solubility_band",
    "sucrose_water_activity",
    "swap",
    "syrup_boiling_point",
    "syrup_density",
    "time_to_invert",
    "water_boiling_point",
    "water_taken_up",
]
