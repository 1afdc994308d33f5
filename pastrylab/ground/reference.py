"""Measured tables a lesson shows: what each CSV of datasets/reference holds, and its reader."""

from pastrylab.ground.files import load
from pastrylab.ground.tables import Column, Table
from pastrylab.ground.units import StudentError


def _numbers(*names, low=0, high=1000):
    return tuple(Column(name, "number", low=low, high=high) for name in names)


TABLES = {
    "robinson_stokes_sucrose": Table(
        columns=(
            *_numbers("molality_mol_per_kg", "solids_percent", "osmotic_coefficient", "water_activity"),
            Column("source"),
        )
    ),
    "sucrose_solubility": Table(
        columns=(Column("series"), *_numbers("temperature_degc", "solubility_percent"), Column("source")),
        key=("series", "temperature_degc"),
    ),
    "honey_aw": Table(
        columns=(
            Column("honeys"),
            *_numbers("moisture_percent_low", "moisture_percent_high", high=40),
            *_numbers("water_activity_low", "water_activity_high", high=1),
            Column("source"),
        ),
        key=("honeys",),
    ),
    "flow": Table(  # directions alone: no source gives a figure that holds for every chocolate
        columns=(
            Column("cause"),
            Column("viscosity", choices=("falls", "rises", "no change", "cannot tell")),
            Column("yield_stress", choices=("falls", "rises", "overcome", "cannot tell")),
            Column("wall", choices=("thinner", "thicker", "cannot tell")),
            Column("why"),
            Column("source"),
        ),
        key=("cause",),
    ),
    "boiling_elevation": Table(
        columns=(Column("series"), *_numbers("solids_percent", "elevation_kelvin"), Column("source")),
        key=("series", "solids_percent"),
    ),
}


def measured(name):
    """A measured table of datasets/reference by name, e.g. "sucrose_solubility". Do not write to it.

    Returns a Sheet; units stand in the column names. Raises StudentError for a name not in TABLES, and for a file
    that is missing or does not hold what TABLES says.

    >>> measured("boiling_elevation").columns
    ('series', 'solids_percent', 'elevation_kelvin', 'source')
    """
    if name not in TABLES:
        raise StudentError(f"a table called '{name}'", "one of " + ", ".join(TABLES), "sucrose_solubility")
    return load(f"reference/{name}.csv", TABLES[name])
