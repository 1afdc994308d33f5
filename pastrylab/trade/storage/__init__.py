"""A store room: its air, cold chocolate in it, what a closed box does, bloom and the cold, and the care of moulds."""

from pastrylab.trade.storage.air import (
    carried,
    coldest_surface,
    dew_point,
    saturation_table,
    surface_humidity,
    vapour_pressure,
)
from pastrylab.trade.storage.box import box_with, silica_for, water_in_air
from pastrylab.trade.storage.care import MOULD_CARE, hardness_class, hardness_in_milligrams, lime_left
from pastrylab.trade.storage.cold import FAT_BLOOM, INTO_THE_COLD, OUT_OF_THE_COLD, SMELLS, SUGAR_BLOOM
from pastrylab.trade.storage.day import day_in_store
from pastrylab.trade.storage.limits import store_band, surface_limit
from pastrylab.trade.storage.tray import how_long_wrapped, may_come_out
from pastrylab.trade.storage.warming import film_off

__all__ = [
    "FAT_BLOOM",
    "INTO_THE_COLD",
    "MOULD_CARE",
    "OUT_OF_THE_COLD",
    "SMELLS",
    "SUGAR_BLOOM",
    "box_with",
    "carried",
    "coldest_surface",
    "day_in_store",
    "dew_point",
    "film_off",
    "hardness_class",
    "hardness_in_milligrams",
    "how_long_wrapped",
    "lime_left",
    "may_come_out",
    "saturation_table",
    "silica_for",
    "store_band",
    "surface_humidity",
    "surface_limit",
    "vapour_pressure",
    "water_in_air",
]
