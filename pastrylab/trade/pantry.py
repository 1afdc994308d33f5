"""Ingredients by name: other names, allergens and household weights, and kitchen measures to grams."""

import difflib
import math

from pastrylab.ground import datasets, own
from pastrylab.ground.files import data_path, looked_up
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import In, StudentError, takes
from pastrylab.trade.pantry_rows import EU_ALLERGENS, US_ALLERGENS, shipped_at

__all__ = ["EU_ALLERGENS", "US_ALLERGENS"]

# Families of ingredients under one word. Syrups are no liquid here: name them too where a recipe counts them.
GROUPS = {"liquid": ("cream", "milk", "fruit", "drink", "spirit"), "sweetener": ("sugar", "syrup")}


def facts():
    """All of ingredients.csv but the composition, {ingredient: {column: value}}, a reader's own last. Do not write to it.

    Columns: also, allergens_us, allergens_eu (tuples of words), family, density_g_per_ml (NaN where none is
    tabled), density_form, closes_reason, note, source. The allergens are those the ingredient is made of, by the nine of US law (FALCPA 2004, FASTER Act 2021) and the fourteen of Regulation
    (EU) 1169/2011, Annex II, as a label names them: "tree nuts (hazelnuts)", with the kind where the law wants it; traces are not in it, and
    the supplier's label decides. A row at fault, with an allergen outside those lists or a name that another has, is left
    out: who asks for it is told its row.

    >>> facts()["butter unsalted"]["allergens_us"]
    ('milk',)
    """
    return _pantry()[0]


def ingredient_name(name):
    """The name ingredients.csv uses for an ingredient.

    Case, accents, commas and the space before % make no difference. Raises StudentError with the nearest
    names where there is none.

    >>> ingredient_name("Butter")
    'butter unsalted'
    """
    return ingredient_names([name])[0]


def ingredient_names(names):
    """The names ingredients.csv uses for several ingredients, a list; the table is looked for once. Raises StudentError.

    >>> ingredient_names(["Butter", "heavy cream"])
    ['butter unsalted', 'heavy cream 36 %']
    """
    known = _pantry()[1]
    return [_named(name, known) for name in names]


def names_known(names):
    """{name: the name ingredients.csv uses for it}, and each name as it is where the table has none; raises nothing.

    >>> names_known(["Butter", "ribbon"])
    {'Butter': 'butter unsalted', 'ribbon': 'ribbon'}
    """
    known = _pantry()[1]
    return {name: known.get(plain_name(name), name) for name in names}


def _named(name, names):
    if not isinstance(name, str):
        raise StudentError(f"{name!r} as an ingredient", "the name of an ingredient", "heavy cream 36 %")
    wanted = plain_name(name)
    if wanted in names:
        return names[wanted]
    at_fault = shipped_at(data_path("ingredients.csv")).at_fault
    if wanted in at_fault:
        raise at_fault[wanted]
    holding = [known for known in names if wanted and wanted in known][:4]
    near = [*holding, *difflib.get_close_matches(wanted, names, 6, cutoff=0.5)]
    found = list(dict.fromkeys(names[known] for known in near))[:5] or ["heavy cream 36 %", "honey"]
    raise StudentError(
        f"'{name[:60]}', which is not among the ingredients",
        "one of the names in ingredients.csv; the nearest are " + ", ".join(found),
        found[0],
    )


def members_of(group, names):
    """Those of some names that a family, an ingredient or a list of both means, as a set; a family wins.

    group: "chocolate", "liquid" (see GROUPS), "honey" ...; names: as ingredients.csv writes them. Raises StudentError
    for a word that is neither.

    >>> members_of("liquid", ["heavy cream 36 %", "honey"])
    {'heavy cream 36 %'}
    """
    if not isinstance(group, str):
        return set().union(*(members_of(one, names) for one in group))
    table, word = facts(), plain_name(group)
    there = {row["family"] for row in table.values()}
    word = word if word in GROUPS or word in there else word.removesuffix("s")
    families = GROUPS.get(word, (word,))
    if there.intersection(families):
        return {name for name in names if table[name]["family"] in families}
    try:
        return {ingredient_name(group)} & set(names)
    except StudentError as error:
        words = ", ".join(sorted({*GROUPS, *there}))
        raise StudentError(error.given, f"{error.needed}; or a family: {words}", "chocolate") from None


@takes(returns="g", volume=In("mL", at_least=0, example="1 cup"))
def mass_of(volume, ingredient):
    """Mass of a household measure.

    Volume times the bulk density of ingredients.csv, for the form named there (packed, unsifted, fluid):
    mostly household weights of USDA SR28, whole grams a US cup. Dry goods vary by a tenth and more with the
    hand that fills the cup. Raises StudentError for an unknown ingredient or one without a household weight.

    >>> from pastrylab import show
    >>> show(mass_of("1 cup", "heavy cream"), 3)
    '238 g'
    """
    return volume * _density(ingredient)


def _density(ingredient):
    name = ingredient_name(ingredient)
    density = facts()[name]["density_g_per_ml"]
    if not density > 0:
        raise StudentError(f"{name}, for which no household weight is tabled", "its mass from a scale", "250 g")
    return float(density)


def ingredients():
    """Composition as datasets.ingredients() gives it, of the rows of facts(), with a reader's own ingredients last. Do not write to it.

    >>> f"{ingredients()['heavy cream 36 %']['fat']:.4f}"
    '0.3608'
    """
    return _pantry()[2]


def own_ingredients():
    """(made, faults): {name: trade.label.Made} of a reader's own ingredients and the class's labels, and a StudentError
    for each row that cannot be used: a label that does not add up, or a name that another ingredient has.

    >>> own_ingredients()[1]
    ()
    """
    return _pantry()[3:]


@looked_up
def _pantry():
    return _with_own(shipped_at(data_path("ingredients.csv")), own.rows("ingredients"))


_kept = {}


def _with_own(shipped, added):
    """(facts, names, composition, own, faults); made again when a file has changed."""
    key = id(shipped), id(added)
    if _kept.get("key") != key:
        made = (
            _added(shipped, added)
            if added.rows or added.faults
            else (shipped.facts, shipped.names, shipped.composition, {}, ())
        )
        # What the key stands for is kept with it, so that its id is not given to another.
        _kept.update(key=key, made=made, of=(shipped, added))
    return _kept["made"]


def _added(shipped, added):
    from pastrylab.trade.labels.label import (  # who has no label of their own does not wait for its laws
        label_of,
        made_of,
    )

    names, made, faults = dict(shipped.names), {}, list(added.faults)
    at_fault = _at_fault(shipped)
    for row in added.rows:
        try:
            called, found = _own_names(row.name, row.cells["also"], at_fault | names), made_of(label_of(row.cells))
        except StudentError as error:
            faults.append(own.said_at(row, error))
            continue
        names |= dict.fromkeys(called, row.name)
        made[row.name] = found
    own_facts = {row.name: _facts_of(row, made[row.name]) for row in added.rows if row.name in made}
    parts = (*datasets.COMPONENTS, *datasets.PARTS_OF_FAT)
    composition = {name: {part: one.grams[part] / 100 for part in parts} for name, one in made.items()}
    return shipped.facts | own_facts, names, shipped.composition | composition, made, tuple(faults)


def check_own_name(name, also="", but=()):
    """Look whether an ingredient of one's own may be called so: letters, and no name that another has.

    also: other names, with semicolons; but: plain names that do not count, since they are its own. Raises StudentError.

    >>> check_own_name("my cream 36 %", "house cream; cream of the house")
    """
    made = own_ingredients()[0]
    names = {plain: known for plain, known in _pantry()[1].items() if known not in made or plain_name(known) not in but}
    _own_names(name, also, _at_fault(shipped_at(data_path("ingredients.csv"))) | names)


def _at_fault(shipped):
    return dict.fromkeys(shipped.at_fault, "a row at fault in ingredients.csv")


def _own_names(own_name, also, names):
    """The names of an own ingredient as they are compared. Raises StudentError for one that is taken."""
    called = [own_name, *(one for one in also.split(";") if one.strip())]
    if len(own_name) > 60 or not any(letter.isalpha() for letter in own_name):
        given = f"'{own_name[:60]}' as a name" if own_name else "no name"
        raise StudentError(given, "letters, at most 60", "my cream 35 %")
    for name in called:
        if plain_name(name) in names:
            taken = names[plain_name(name)]
            raise StudentError(
                f"'{name.strip()[:60]}', a name that {taken} has", "a name of its own", f"my {name.strip()}"
            )
    return [plain_name(name) for name in called]


def _facts_of(row, made):
    also = tuple(name.strip() for name in row.cells["also"].split(";") if name.strip())
    unsaid = f"what the pack of {row.name} says"
    return {
        "also": also,
        "family": made.family,
        "density_g_per_ml": math.nan if made.density is None else made.density,
        "density_form": "as weighed by its owner" if made.density else "",
        "allergens_us": (*made.allergens_us, unsaid),
        "allergens_eu": (*made.allergens_eu, unsaid),
        "closes_reason": "",
        "note": " ".join(made.says),
        "source": row.cells["source"] or "derived from its label, an ingredient of one's own",
    }
