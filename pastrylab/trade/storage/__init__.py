"""A store room: its air, cold chocolate in it, and what a closed box does."""

from pastrylab.trade.storage.air import (
    carried,
    coldest_surface,
    dew_point,
    saturation_table,
    surface_humidity,
    vapour_pressure,
)
from pastrylab.trade.storage.day import day_in_store
from pastrylab.trade.storage.limits import store_band, surface_limit
from pastrylab.trade.storage.tray import how_long_wrapped, may_come_out
from pastrylab.trade.storage.warming import film_off

__all__ = [
    "carried",
    "coldest_surface",
    "day_in_store",
    "dew_point",
    "film_off",
    "how_long_wrapped",
    "may_come_out",
    "saturation_table",
    "store_band",
    "surface_humidity",
    "surface_limit",
    "vapour_pressure",
]
