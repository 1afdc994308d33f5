"""A store room: its air, cold chocolate in it, and what a closed box does."""

from pastrylab.trade.storage.air import (
    carried,
    coldest_surface,
    dew_point,
    saturation_table,
    surface_humidity,
    vapour_pressure,
)

__all__ = ["carried", "coldest_surface", "dew_point", "saturation_table", "surface_humidity", "vapour_pressure"]
