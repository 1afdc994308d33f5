"""Every CSV of the workbook: where it lies, what it must hold, and which exercise values are in force."""

import csv
import functools
import hashlib
import io
import os
from dataclasses import dataclass, field, replace
from pathlib import Path

from pastrylab.money import CURRENCIES
from pastrylab.tables import Column, Table, read_table
from pastrylab.units import StudentError, unit_named

_HERE = Path(__file__).resolve().parent


def workbook():
    """The folder the student works in (it holds lessons/ and datasets/), or None outside one."""
    named = os.environ.get("PASTRYLAB_WORKBOOK")
    if named:
        return Path(named)
    for folder in (Path.cwd(), *Path.cwd().parents):
        if (folder / "lessons").is_dir() and (folder / "datasets" / "exercise_values.csv").is_file():
            return folder
    return None


@functools.cache
def folder():
    """The datasets folder that came with the package (a checkout's own, or the one inside the wheel)."""
    packed = _HERE / "_workbook" / "datasets"
    return packed if packed.is_dir() else _HERE.parent / "datasets"


def data_path(name):
    """Path of a dataset (a file, or a folder of them) in force: the workbook folder's file, else the packaged one."""
    own = workbook()
    path = own and own / "datasets" / name
    return path if path and path.exists() else folder() / name


@functools.lru_cache(maxsize=64)
def _cached(path, stamp, table):
    return read_table(path, table)


def load(name, table):
    """A dataset in force by name, read again when its file has changed. The frame is shared: do not write to it."""
    path = data_path(name)
    try:
        status = path.stat()
    except OSError:
        raise StudentError(f"no file {name}", "the file in the datasets folder", f"datasets/{name}") from None
    return _cached(path, (status.st_mtime_ns, status.st_size), table)


# --- the exercise values in force ---------------------------------------------------------------------------------

EXERCISE_VALUES = Table(
    columns=(
        Column("lesson"),
        Column("exercise"),
        Column("given"),
        Column("value", "number"),
        Column("unit", required=False),
        Column("low", "number"),
        Column("high", "number"),
        Column("step", "number", low=1e-6),
    ),
    key=("exercise", "given"),
)
_MOST_STEPS = 10_000


@dataclass(frozen=True)
class Given:
    """One value of an exercise: the class value, its unit, and the range and step individual values are drawn from."""

    value: float
    unit: str
    low: float
    high: float
    step: float

    @property
    def steps(self):
        """How many steps lie between low and high."""
        return round((self.high - self.low) / self.step)


@dataclass(frozen=True)
class Values:
    """Exercise values in force, with the id that every recorded answer names."""

    givens: dict[tuple[str, str], Given]
    lessons: dict[str, str]
    name: str = "exercise_values.csv"
    id: str = field(init=False)

    def __post_init__(self):
        rows = [
            f"{e}|{g}|{v.value!r}|{v.unit}|{v.low!r}|{v.high!r}|{v.step!r}" for (e, g), v in sorted(self.givens.items())
        ]
        object.__setattr__(self, "id", hashlib.sha256("\n".join(rows).encode()).hexdigest()[:8])

    def of(self, exercise):
        """Given by name for one exercise, in the order of the file."""
        return {name: given for (owner, name), given in self.givens.items() if owner == exercise}

    def moved(self, where):
        """A copy with other class values: where is "low", "high", or a function (exercise, name, given) -> value."""
        pick = where if callable(where) else lambda _e, _n, given: getattr(given, where)
        moved = {(e, n): replace(given, value=pick(e, n, given)) for (e, n), given in self.givens.items()}
        return Values(moved, self.lessons, self.name)

    def to_csv(self):
        """The values as CSV text, as exercise_values.csv holds them."""
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow([c.name for c in EXERCISE_VALUES.columns])
        for (exercise, name), g in self.givens.items():
            numbers = [f"{x:.10g}" for x in (g.value, g.low, g.high, g.step)]
            writer.writerow([self.lessons[exercise], exercise, name, numbers[0], g.unit, *numbers[1:]])
        return out.getvalue()


def values(explicit=None):
    """The exercise values in force: `explicit` (Values, path, CSV text, bytes), else the workbook's file, else the package's.

    Raises StudentError naming file, row, column and remedy.
    """
    if isinstance(explicit, Values):
        return explicit
    if explicit is None:
        path = data_path("exercise_values.csv")
        return _values_at(path, (path.stat().st_mtime_ns, path.stat().st_size))
    if isinstance(explicit, str) and "\n" not in explicit:
        explicit = Path(explicit)
    return _values_from(read_table(explicit, EXERCISE_VALUES, getattr(explicit, "name", "exercise_values.csv")))


@functools.lru_cache(maxsize=8)
def _values_at(path, stamp):
    return _values_from(read_table(path, EXERCISE_VALUES))


def _values_from(frame, name="exercise_values.csv"):
    givens, lessons = {}, {}
    for row in frame.itertuples(index=False):
        where = f"{name}, exercise {row.exercise}, given '{row.given}'"
        unit = _unit_in_csv(row.unit, where)
        given = Given(row.value, unit, row.low, row.high, row.step)
        if not row.low <= row.value <= row.high:
            raise StudentError(
                f"{where}, column 'value': {row.value:g}",
                f"a value from {row.low:g} to {row.high:g}",
                f"{row.low:g}",
            )
        if given.steps > _MOST_STEPS:
            raise StudentError(
                f"{where}, column 'step': {row.step:g}",
                f"at most {_MOST_STEPS} steps from low to high",
                "a larger step",
            )
        if abs(row.low + given.steps * row.step - row.high) > 1e-6 * max(1.0, abs(row.high)):
            raise StudentError(
                f"{where}, column 'step': {row.step:g} does not lead from {row.low:g} to {row.high:g}",
                "a step that divides the range",
                f"{(row.high - row.low) / max(1, given.steps):g}",
            )
        givens[row.exercise, row.given] = given
        lessons[row.exercise] = row.lesson
    return Values(givens, lessons, name)


def _unit_in_csv(unit, where):
    if not unit or unit in CURRENCIES:
        return unit
    try:
        return unit_named(unit)
    except StudentError as error:
        raise StudentError(f"{where}, column 'unit': '{unit[:20]}'", error.needed, "kg") from None


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
    path = data_path("ingredients.csv")
    return _ingredients_at(path, (path.stat().st_mtime_ns, path.stat().st_size))


@functools.lru_cache(maxsize=8)
def _ingredients_at(path, stamp):
    frame = read_table(path, INGREDIENTS).set_index("ingredient")
    for name, row in frame.iterrows():
        total, parts = sum(row[c] for c in COMPONENTS), sum(row[c] for c in PARTS_OF_FAT)
        where = f"ingredients.csv, {name}"
        if abs(total - 100) > (1.0001 if row.closes_reason else 0.1001):
            raise StudentError(f"{where}: components that add up to {total:g} g", "100 g", "other: the rest")
        if parts > row.fat + 0.01:
            raise StudentError(f"{where}: {parts:g} g of milk fat and cocoa butter", "at most its fat", "0")
    return frame[[*COMPONENTS, *PARTS_OF_FAT]] / 100


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
        Column("pieces", "number", low=1, high=10_000),
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
