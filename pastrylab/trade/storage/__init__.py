"""A store room: its air, cold chocolate in it, what a closed box does, and what hard water leaves in a mould."""

from pastrylab.trade.storage.air import (
    carried,
    coldest_surface,
    dew_point,
    saturation_table,
    surface_humidity,
    vapour_pressure,
)
from pastrylab.trade.storage.box import box_with, silica_for, water_in_air
from pastrylab.trade.storage.care import hardness_class, hardness_in_milligrams, lime_left
from pastrylab.trade.storage.day import day_in_store
from pastrylab.trade.storage.limits import store_band, surface_limit
from pastrylab.trade.storage.tray import how_long_wrapped, may_come_out
from pastrylab.trade.storage.warming import film_off

__all__ = [
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
