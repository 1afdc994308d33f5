"""ingredients.csv as it lies in datasets: which rows can be used, by which names, and why another stands for none."""

import difflib
from dataclasses import dataclass

from pastrylab.ground import datasets
from pastrylab.ground.files import read_once
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import StudentError

US_ALLERGENS = (
    *("milk", "egg", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame"),
)
EU_ALLERGENS = (
    *("cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts"),
    *("celery", "mustard", "sesame", "sulphur dioxide and sulphites", "lupin", "molluscs"),
)
# The law wants the name of the kind as well: 21 USC 343(w)(2) for the US; Annex II for the EU.
_BY_KIND = {"tree nuts", "fish", "crustacean shellfish", "nuts", "cereals containing gluten"}
_LISTS = ("also", "allergens_us", "allergens_eu")
_FACTS = (
    *("also", "family", "density_g_per_ml", "density_form", "allergens_us", "allergens_eu"),
    *("closes_reason", "note", "source"),
)


@dataclass(frozen=True, eq=False)
class Shipped:
    """facts and composition by ingredient, the ingredient behind each plain name, and the StudentError of each plain name
    whose row is at fault.

    >>> from pastrylab.ground.files import data_path
    >>> shipped_at(data_path("ingredients.csv")).names["butter"]
    'butter unsalted'
    """

    facts: dict[str, dict]
    composition: dict[str, dict]
    names: dict[str, str]
    at_fault: dict[str, StudentError]

    @property
    def faults(self):
        """Each fault once, in the order they were found."""
        return list({id(fault): fault for fault in self.at_fault.values()}.values())


def _with_its_kind(allergen):
    """An allergen as a label names it: a table written without the kind of nut says so, and does not pass for complete."""
    return f"{allergen} (which kind: see the pack)" if allergen in _BY_KIND else allergen


@read_once
def shipped_at(path):
    """ingredients.csv at a path, a Shipped. A row at fault stops who asks for its ingredient and nobody else.

    >>> from pastrylab.ground.files import data_path
    >>> shipped_at(data_path("ingredients.csv")).at_fault
    {}
    """
    read = datasets.sound_ingredients(path)
    at_fault = {}
    for cells, fault in read.faults:
        for also in (cells.get("ingredient", ""), *cells.get("also", "").split(";")):
            at_fault.setdefault(plain_name(also), fault)
    if not len(read.sheet):
        given = "ingredients.csv, which has no row that can be used"
        raise StudentError(given, "a row for each ingredient", "the ingredients.csv that came with the package")
    table = {}
    # The ingredient itself before any other name of another one.
    names = {plain_name(name): name for name in read.sheet["ingredient"]}
    for number, cells in read.sheet.numbered():
        name = cells["ingredient"]
        row, where = (
            cells | {column: _listed(cells[column]) for column in _LISTS},
            f"ingredients.csv, row {number}, {name}",
        )
        table[name] = {column: row[column] for column in _FACTS}
        for column in _LISTS[1:]:
            table[name][column] = tuple(_with_its_kind(word) for word in row[column])
        called = [plain_name(also) for also in (name, *row["also"])]
        fault = _allergen_fault(row, where) or _name_fault(name, called, names, where)
        if fault:
            names = {plain: other for plain, other in names.items() if other != name}
            at_fault |= {plain: fault for plain in called if plain not in names}
        else:
            names |= dict.fromkeys(called, name)
    sound = {name: row for name, row in table.items() if plain_name(name) in names}
    composition = datasets.ingredients()
    if len(sound) < len(table):
        composition = {name: composition[name] for name in sound}
    return Shipped(sound, composition, names, at_fault)


def _listed(cell):
    return tuple(word.strip() for word in cell.split(";") if word.strip())


def _allergen_fault(row, where):
    for column, known in (("allergens_us", US_ALLERGENS), ("allergens_eu", EU_ALLERGENS)):
        for word in row[column]:
            if _with_its_kind(word).partition(" (")[0] not in known:
                near = difflib.get_close_matches(word.casefold(), known, 1, cutoff=0.5) or known
                return StudentError(f"{where}, column '{column}': '{word[:40]}'", "of " + ", ".join(known), near[0])
    return None


def _name_fault(name, called, names, where):
    for plain in called:
        if names.get(plain, name) != name:
            given = f"{where}: '{plain}', which names {names[plain]} too"
            return StudentError(given, "a name of one ingredient only", "a longer name")
    return None
