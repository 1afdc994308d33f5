"""Every table of the workbook: the columns it must have, and both sides of each limit on a number.

The limits are those of a kitchen: common practice, no source.
"""

import pytest

from pastrylab.ground import datasets, lab_tables, own, pack_lists, reference, storage_limits
from pastrylab.ground.components import COMPONENTS, PARTS_OF_FAT, composition_faults
from pastrylab.ground.tables import read_table
from pastrylab.ground.units import StudentError

TABLES = {
    "bands": datasets.CHOCOLATE_BANDS,
    "cocoa butter": datasets.COCOA_BUTTER,
    "ingredients": datasets.INGREDIENTS,
    "prices": datasets.PRICES,
    "bonbons": datasets.BONBONS,
    "probe logs": datasets.PROBE_LOGS,
    "ratios": datasets.GANACHE_RATIOS,
    "targets": datasets.GANACHE_TARGETS,
    "fillings": datasets.FILLINGS,
    "cream logs": datasets.CREAM_LOGS,
    "infusions": datasets.INFUSIONS,
    "storage": storage_limits.STORAGE_LIMITS,
    "moulded": lab_tables.MOULDED,
    "stock": lab_tables.STOCK,
    "lab": lab_tables.LAB,
    "pack lists": pack_lists.PACK_LISTS,
    **{f"own {name}": table for name, table in own.TABLES.items()},
    **reference.TABLES,
}

FIGURES = "cocoa fat saturates carbohydrate sugars added_sugars polyols fibre protein salt sodium contents density"
MAY_BE_LEFT_OUT = {
    "ingredients": "density_g_per_ml also density_form allergens_us allergens_eu closes_reason note",
    "prices": "ingredient",
    "storage": "high",
    "lab": "opens closes",
    "pack lists": "contents_us contents_eu",
    "probe logs": "seeded_at",
    "fillings": "note",
    "own ingredients": f"also label serving {FIGURES} source",
    "own couvertures": "source",
    "own prices": "ingredient currency yield_share yield_low yield_high price_low price_high source",
}

STAGES = [f"{stage}_{end}" for stage in ("melt", "cool", "work") for end in ("low", "high")]
PRICE_LIMITS = [
    ("pack_size", "0.001", "10000", "0.0009", "10000.1"),
    *((name, "0.01", "1", "0.009", "1.001") for name in ("yield_share", "yield_low", "yield_high")),
    *((name, "0", "1000000000", "-0.01", "1000000001") for name in ("price", "price_low", "price_high")),
]
# table: (column, the least and the most it takes, and what is just beyond)
LIMITS = {
    "bands": [(name, "0", "60", "-0.1", "60.1") for name in ("low", "high")],  # degC
    "cocoa butter": [("melts_at", "0", "60", "-0.1", "60.1"), ("error", "0", "5", "-0.1", "5.1")],
    "ingredients": [
        *((name, "0", "100", "-0.1", "100.1") for name in (*COMPONENTS, *PARTS_OF_FAT)),
        ("density_g_per_ml", "0.05", "3", "0.049", "3.01"),
    ],
    "prices": PRICE_LIMITS,
    "own prices": PRICE_LIMITS,
    "own couvertures": [(name, "0", "60", "-0.1", "60.1") for name in STAGES],
    "bonbons": [("grams", "0.1", "100000", "0.09", "100000.5"), ("pieces", "1", "10000", "0", "10001")],
    "ratios": [(name, "0.1", "10", "0.09", "10.1") for name in ("low", "high")],
    "targets": [(name, "0", "100", "-0.1", "100.1") for name in ("low", "high")],
    "storage": [(name, "0", "100", "-0.1", "100.1") for name in ("low", "high")],  # % or degC
    "moulded": [
        ("cavities", "1", "1000", "0", "1001"),
        ("cavity_ml", "0.5", "500", "0.4", "500.1"),
        ("cap_g", "0.1", "100", "0.09", "100.1"),
        *(
            (f"{name}_min", "0", "20160", "-1", "20161")
            for name in ("make", "rest_least", "rest_most", "crystal_least", "crystal_most")
        ),
    ],
    "stock": [("on_hand_g", "0", "10000000", "-0.1", "10000001"), ("lead_days", "0", "365", "-1", "366")],
    "lab": [("count", "1", "10000", "0", "10001")],
    "fillings": [("grams", "0.1", "100000", "0.09", "100000.5")],
    "infusions": [(name, "0", "20", "-0.1", "20.1") for name in ("low", "high")],
    "robinson_stokes_sucrose": [
        (name, "0", "1000", "-0.1", "1000.1")
        for name in ("molality_mol_per_kg", "solids_percent", "osmotic_coefficient", "water_activity")
    ],
    "sucrose_solubility": [
        (name, "0", "1000", "-0.1", "1000.1") for name in ("temperature_degc", "solubility_percent")
    ],
    "honey_aw": [
        *((f"moisture_percent_{end}", "0", "40", "-0.1", "40.1") for end in ("low", "high")),
        *((f"water_activity_{end}", "0", "1", "-0.1", "1.01") for end in ("low", "high")),
    ],
    "boiling_elevation": [(name, "0", "1000", "-0.1", "1000.1") for name in ("solids_percent", "elevation_kelvin")],
}


def read(name, leave_out=(), **cells):
    """A table of one row that holds what it must, some cells put in by hand."""
    usual = {column.name: "a" if column.kind == "text" else "1" for column in TABLES[name].columns}
    usual |= {column.name: column.choices[0] for column in TABLES[name].columns if column.choices}
    usual = {column: cell for column, cell in (usual | cells).items() if column not in leave_out}
    return read_table(";".join(usual) + "\n" + ";".join(usual.values()) + "\n", TABLES[name], "t.csv")


@pytest.mark.parametrize("name", TABLES)
def test_which_columns_may_be_left_out(name):
    may = MAY_BE_LEFT_OUT.get(name, "").split()
    assert len(read(name, leave_out=may)) == 1
    for column in (column.name for column in TABLES[name].columns if column.name not in may):
        with pytest.raises(StudentError, match=f"no column '{column}'"):
            read(name, leave_out=[column])


@pytest.mark.parametrize(
    ("name", "column", "least", "most", "under", "over"),
    [(name, *limits) for name, rows in LIMITS.items() for limits in rows],
)
def test_how_far_a_number_goes(name, column, least, most, under, over):
    for allowed in (least, most):
        assert read(name, **{column: allowed})[column][0] == float(allowed)
    for beyond in (under, over):
        with pytest.raises(StudentError, match=f"column '{column}' .cell [A-Z]+2.: "):
            read(name, **{column: beyond})


def test_every_number_of_every_table_is_tried():
    tried = {(name, column) for name, rows in LIMITS.items() for column, *_ in rows}
    numbers = {(name, c.name) for name, table in TABLES.items() for c in table.columns if c.kind != "text"}
    assert tried == numbers


# --- what adds up -----------------------------------------------------------------------------------------------------


def faults(reason="", fat="30", milk_fat="0", cocoa_butter="0", **cells):
    components = dict.fromkeys(COMPONENTS, "0") | {"fat": fat, "milk_fat": milk_fat, "cocoa_butter": cocoa_butter}
    return [
        error.given
        for _row, error in composition_faults(read("ingredients", closes_reason=reason, **(components | cells)))
    ]


@pytest.mark.parametrize(
    ("water", "reason", "sound"),
    [
        ("70.1", "", True),
        ("69.9", "", True),
        ("70.105", "", False),
        ("69.895", "", False),
        ("71", "as analysed", True),
        ("69", "as analysed", True),
        ("71.05", "as analysed", False),
        ("68.95", "as analysed", False),
    ],
)
def test_components_add_up_to_a_tenth_or_to_a_gram_where_it_says_why(water, reason, sound):
    """30 g of fat and the water."""
    said = [] if sound else [f"ingredients.csv, row 2, a: components that add up to {30 + float(water):g} g"]
    assert faults(reason, water=water) == said


@pytest.mark.parametrize(
    ("milk_fat", "cocoa_butter", "sound"),
    [("10", "20", True), ("10", "20.009", True), ("10", "20.0105", False), ("31", "0", False), ("0", "31", False)],
)
def test_parts_of_fat_are_no_more_than_the_fat(milk_fat, cocoa_butter, sound):
    found = faults(water="70", milk_fat=milk_fat, cocoa_butter=cocoa_butter)
    total = float(milk_fat) + float(cocoa_butter)
    assert found == ([] if sound else [f"ingredients.csv, row 2, a: {total:g} g of milk fat and cocoa butter"])
