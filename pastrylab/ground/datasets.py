"""Every CSV of the workbook: what it must hold. Where they lie is in files, the exercises' numbers in exercise_values.

A reader returns a Sheet of the whole file, {column: value} a line, that is shared by all who ask: nobody writes to it. It
raises StudentError, naming file, row and column, for a file that is missing or does not hold what its Table says.
"""

from pastrylab.ground.components import COMPONENTS, PARTS_OF_FAT, composition_faults
from pastrylab.ground.files import Sound, data_path, load, load_sound, read_once
from pastrylab.ground.price_rows import PRICES, prices
from pastrylab.ground.tables import Column, Table

__all__ = ["PRICES", "prices"]

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
    """Tempering bands, `low` to `high` in degC, by kind, stage and origin ("in use" or other), each row with its source.

    >>> bands = chocolate_bands().where(kind="dark", stage="work", origin="in use")
    >>> [(row["low"], row["high"]) for row in bands]
    [(31.0, 32.0)]
    """
    return load("chocolate_bands.csv", CHOCOLATE_BANDS)


def sound_bands():
    """The rows of chocolate_bands that can be used, a Sound: who asks for another kind need not wait for one at fault.

    >>> sound_bands().faults
    ()
    """
    return load_sound("chocolate_bands.csv", CHOCOLATE_BANDS)


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
    """The six crystal forms of cocoa butter: melting point `melts_at` and its `error` in degC, each row with its source.

    >>> list(cocoa_butter()["form"])
    ['I', 'II', 'III', 'IV', 'V', 'VI']
    """
    return load("cocoa_butter.csv", COCOA_BUTTER)


# --- ingredients --------------------------------------------------------------------------------------

FAMILIES = (
    *("acid", "butter", "chocolate", "cream", "drink", "egg", "fat", "flavour", "fruit"),
    *("humectant", "milk", "nut", "other", "powder", "spirit", "starch", "sugar", "syrup"),
)
_WORDS = ("also", "density_form", "allergens_us", "allergens_eu", "closes_reason", "note")
INGREDIENTS = Table(
    columns=(
        Column("ingredient"),
        Column("family", choices=FAMILIES),
        *(Column(name, "number", low=0, high=100) for name in COMPONENTS + PARTS_OF_FAT),
        Column("density_g_per_ml", "number", required=False, low=0.05, high=3),
        *(Column(name, required=False) for name in _WORDS),
        Column("source"),
    ),
    key=("ingredient",),
)


def ingredients():
    """Composition: {ingredient: {component: share of its mass}}. Do not write to it.

    COMPONENTS add up to the whole; milk_fat and cocoa_butter are parts of fat; "other" is what no column
    names (cocoa polyphenols, fruit acids). pantry.facts() has the other columns. A row at fault is left out, as is one
    whose components do not add up to 100 g: within 0.1 g, or within 1 g where closes_reason says why.

    >>> f"{ingredients()['heavy cream 36 %']['fat']:.4f}"
    '0.3608'
    """
    return _ingredients_at(data_path("ingredients.csv"))


@read_once
def _ingredients_at(path):
    rows = sound_ingredients(path).sheet
    return {row["ingredient"]: {name: row[name] / 100 for name in (*COMPONENTS, *PARTS_OF_FAT)} for row in rows}


def sound_ingredients(path):
    """ingredients.csv at a path as a Sound: rows at fault, and those whose components do not add up, are left out.

    >>> sound_ingredients(data_path("ingredients.csv")).faults
    ()
    """
    read = load_sound(path.name, INGREDIENTS)
    wrong = dict(composition_faults(read.sheet))
    if not wrong:
        return read
    faults = [(number, row) for number, row in read.sheet.numbered() if number in wrong]
    faults = tuple(({name: str(cell) for name, cell in row.items()}, wrong[number]) for number, row in faults)
    return Sound(read.sheet.only(number not in wrong for number in read.sheet.numbers), read.faults + faults)


# --- bonbons ------------------------------------------------------------------------------------------

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
    """Formulas to cost: edible grams of each ingredient, by part, for a batch of `pieces`. Do not write to it.

    >>> one = bonbons().by("bonbon", "ingredient")["dark ganache", "heavy cream 36 %"]
    >>> f"{one['grams']:g} g in the {one['part']} of {one['pieces']:.0f}"
    '260 g in the filling of 96'
    """
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
    """The sample logs: file in probe_logs/, kind of chocolate, method of tempering, seeding time as noted (text, or "").

    >>> probe_logs().by("file")["seeded_in_bowl_sound.csv"]["kind"]
    'dark'
    """
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
    """Parts of chocolate to one of liquid by mass, `low` to `high`, by kind of chocolate and use, each with its source.

    >>> row = ganache_ratios().by("kind", "use")["dark", "pour"]
    >>> f"{row['low']:g} to {row['high']:g}"
    '0.8 to 1.2'
    """
    return load("ganache_ratios.csv", GANACHE_RATIOS)


def ganache_targets():
    """Bands of water, fat and sugars by use, `low` to `high` in percent of the whole, each row with its source.

    >>> row = ganache_targets().by("use", "component")["pour", "water"]
    >>> f"{row['low']:g} to {row['high']:g} %"
    '22 to 32 %'
    """
    return load("ganache_targets.csv", GANACHE_TARGETS)


def fillings():
    """The invented fillings: filling, ingredient, grams, use, note. `emulsion.fillings()` makes formulas of them.

    >>> row = fillings().by("filling", "ingredient")["dark", "heavy cream 36 %"]
    >>> f"{row['grams']:g} g, to {row['use']}"
    '200 g, to fill'
    """
    return load("fillings.csv", FILLINGS)


CREAM_LOGS = Table(columns=(Column("file"), Column("vessel"), Column("source")), key=("file",))


def cream_logs():
    """The sample logs of boiled cream cooling: file in cream_logs/, and the vessel it stood in.

    >>> cream_logs().by("file")["shallow_pan_ice_water.csv"]["vessel"]
    'shallow pan, stirred in ice water'
    """
    return load("cream_logs.csv", CREAM_LOGS)


INFUSIONS = Table(
    columns=(
        Column("kind"),
        Column("low", "number", low=0, high=20),
        Column("high", "number", low=0, high=20),
        Column("source"),
    ),
    key=("kind",),
)


def infusions():
    """What steeped leaves, beans and pods keep of the liquid: g a gram of them, `low` to `high`, each row with its source.

    >>> row = infusions().by("kind")["tea leaves"]
    >>> f"{row['low']:g} to {row['high']:g} g a gram"
    '2 to 4 g a gram'
    """
    return load("infusions.csv", INFUSIONS)
