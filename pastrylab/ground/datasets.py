"""Every CSV of the workbook: what it must hold. Where they lie is in files, the exercises' numbers in exercise_values."""

from pastrylab.ground.files import data_path, load, read_once
from pastrylab.ground.tables import Column, Table
from pastrylab.ground.units import StudentError

# --- chocolate ----------------------------------------------------------------------------------------------------

CHOCOLATE_BANDS = Table(
    columns=(
        Column("kind", choices=("dark", "milk", "white")),
        Column("stage", choices=("melt", "cool", "work")),
        Column("low", "number", low=0, high=60),
        Column("high", "number", low=0, high=60),
        Column("origin"),
        Column("source"),
    ),
    key=("kind", "stage", "origin"),
)


def chocolate_bands():
    """Tempering bands in degC by kind, stage and origin (a textbook, or common practice), each row with its source."""
    return load("chocolate_bands.csv", CHOCOLATE_BANDS)


COCOA_BUTTER = Table(
    columns=(
        Column("form", choices=("I", "II", "III", "IV", "V", "VI")),
        Column("greek"),
        Column("melts_at", "number", low=0, high=60),
        Column("error", "number", low=0, high=5),
        Column("what_it_does"),
        Column("source"),
    ),
    key=("form",),
)


def cocoa_butter():
    """The six crystal forms of cocoa butter: melting point and its error in degC, each row with its source."""
    return load("cocoa_butter.csv", COCOA_BUTTER)


# --- ingredients --------------------------------------------------------------------------------------

COMPONENTS = (
    *("water", "fat", "protein", "sucrose", "glucose", "fructose", "lactose", "maltose"),
    *("higher_saccharides", "polyols", "starch", "fibre", "ash", "alcohol", "other"),
)
PARTS_OF_FAT = ("milk_fat", "cocoa_butter")
_WORDS = ("also", "density_form", "allergens_us", "allergens_eu", "closes_reason", "note")
INGREDIENTS = Table(
    columns=(
        Column("ingredient"),
        Column("family"),
        *(Column(name, "number", low=0, high=100) for name in COMPONENTS + PARTS_OF_FAT),
        Column("density_g_per_ml", "number", required=False, low=0.05, high=3),
        *(Column(name, required=False) for name in _WORDS),
        Column("source"),
    ),
    key=("ingredient",),
)


def ingredients():
    """Composition: index the ingredient's name, columns its components as shares of mass. Do not write to it.

    COMPONENTS add up to the whole; milk_fat and cocoa_butter are parts of fat; "other" is what no column
    names (cocoa polyphenols, fruit acids). pantry.facts() has the other columns. Raises StudentError for a
    row whose components do not add up to 100 g: within 0.1 g, or within 1 g where closes_reason says why.
    """
    return _ingredients_at(data_path("ingredients.csv"))


@read_once
def _ingredients_at(path):
    frame = load(path.name, INGREDIENTS)
    for fault in composition_faults(frame):
        raise fault
    return frame.set_index("ingredient")[[*COMPONENTS, *PARTS_OF_FAT]] / 100


def composition_faults(frame):
    """A StudentError for each ingredient whose components do not add up, or whose fat is less than its parts."""
    for number, row in zip(frame.attrs["rows"], frame.to_dict("records"), strict=True):
        total, parts = sum(row[c] for c in COMPONENTS), sum(row[c] for c in PARTS_OF_FAT)
        where = f"ingredients.csv, row {number}, {row['ingredient']}"
        if abs(total - 100) > (1.0001 if row["closes_reason"] else 0.1001):
            yield StudentError(f"{where}: components that add up to {total:g} g", "100 g", "other: the rest")
        if parts > row["fat"] + 0.01:
            yield StudentError(f"{where}: {parts:g} g of milk fat and cocoa butter", "at most its fat", "0")


# --- prices -------------------------------------------------------------------------------------------

PRICES = Table(
    columns=(
        Column("item"),
        Column("ingredient", required=False),
        Column("pack_size", "number", low=0.001, high=10_000),
        Column("pack_unit", choices=("kg", "g", "lb", "oz", "L", "mL", "fl_oz", "quart", "gallon", "piece")),
        Column("price", "number", low=0, high=1e9),
        Column("currency"),
        *(Column(name, "number", low=0.01, high=1) for name in ("yield_share", "yield_low", "yield_high")),
        *(Column(name, "number", low=0, high=1e9) for name in ("price_low", "price_high")),
        Column("source"),
    ),
    key=("item",),
)


def prices():
    """Packs and their prices, one row an item, for `purchasing.price_list`. Do not write to it.

    ingredient: its name in ingredients.csv, empty where it is none; the lows and highs are what an instructor
    finds plausible over a year.
    """
    return load("prices.csv", PRICES)


BONBONS = Table(
    columns=(
        Column("bonbon"),
        Column("part"),
        Column("ingredient"),
        Column("grams", "number", low=0.1, high=100_000),
        Column("pieces", "count", low=1, high=10_000),
        Column("source"),
    ),
    key=("bonbon", "part", "ingredient"),
)


def bonbons():
    """Formulas to cost: edible grams of each ingredient, by part, for a batch of `pieces`. Do not write to it."""
    return load("bonbons.csv", BONBONS)


# --- thermometer logs ---------------------------------------------------------------------------------------------

PROBE_LOGS = Table(
    columns=(
        Column("file"),
        Column("kind", choices=("dark", "milk", "white")),
        Column("method"),
        Column("seeded_at", required=False),
        Column("source"),
    ),
    key=("file",),
)


def probe_logs():
    """The sample logs: file in probe_logs/, kind of chocolate, method of tempering, seeding time as noted."""
    return load("probe_logs.csv", PROBE_LOGS)


# --- ganache ------------------------------------------------------------------------------------------------------

_USE = Column("use", choices=("pour", "fill", "pipe", "roll"))
GANACHE_RATIOS = Table(
    columns=(
        Column("kind", choices=("dark", "milk", "white")),
        _USE,
        Column("low", "number", low=0.1, high=10),
        Column("high", "number", low=0.1, high=10),
        Column("source"),
    ),
    key=("kind", "use"),
)
GANACHE_TARGETS = Table(
    columns=(
        _USE,
        Column("component", choices=("water", "fat", "sugars")),
        Column("low", "number", low=0, high=100),
        Column("high", "number", low=0, high=100),
        Column("source"),
    ),
    key=("use", "component"),
)
FILLINGS = Table(
    columns=(
        Column("filling"),
        Column("ingredient"),
        Column("grams", "number", low=0.1, high=100_000),
        _USE,
        Column("note", required=False),
        Column("source"),
    ),
    key=("filling", "ingredient"),
)


def ganache_ratios():
    """Chocolate to liquid by mass, by kind of chocolate and use, each row with its source."""
    return load("ganache_ratios.csv", GANACHE_RATIOS)


def ganache_targets():
    """Bands of water, fat and sugars by use, percent of the whole, each row with its source."""
    return load("ganache_targets.csv", GANACHE_TARGETS)


def fillings():
    """The invented fillings: filling, ingredient, grams, use, note. `emulsion.fillings()` makes formulas of them."""
    return load("fillings.csv", FILLINGS)


CREAM_LOGS = Table(columns=(Column("file"), Column("vessel"), Column("source")), key=("file",))


def cream_logs():
    """The sample logs of boiled cream cooling: file in cream_logs/, and what it stood in."""
    return load("cream_logs.csv", CREAM_LOGS)
