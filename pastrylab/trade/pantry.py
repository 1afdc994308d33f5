"""Ingredients by name: other names, allergens and household weights, and kitchen measures to grams."""

import difflib

from pastrylab.ground.datasets import INGREDIENTS
from pastrylab.ground.files import data_path, load, read_once
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import In, StudentError, takes

US_ALLERGENS = (
    *("milk", "egg", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame"),
)
EU_ALLERGENS = (
    *("cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts"),
    *("celery", "mustard", "sesame", "sulphur dioxide and sulphites", "lupin", "molluscs"),
)
# The law wants the name of the kind as well: 21 USC 343(w)(2) for the US; Annex II for the EU.
_BY_KIND = {"tree nuts", "fish", "crustacean shellfish", "nuts", "cereals containing gluten"}
# Families of ingredients under one word. Syrups are no liquid here: name them too where a recipe counts them.
GROUPS = {"liquid": ("cream", "milk", "fruit", "drink", "spirit"), "sweetener": ("sugar", "syrup")}
_LISTS = ("also", "allergens_us", "allergens_eu")


def facts():
    """All of ingredients.csv but the composition, by ingredient. Do not write to it.

    Columns: also, allergens_us, allergens_eu (tuples of words), family, density_g_per_ml (NaN where none is
    tabled), density_form, closes_reason, note, source. The allergens are those the ingredient is made of, by
    the nine of US law (FALCPA 2004, FASTER Act 2021) and the fourteen of Regulation (EU) 1169/2011, Annex
    II, as a label names them: "tree nuts (hazelnuts)", with the kind where the law wants it; traces are not in it, and
    the supplier's label decides. Raises StudentError for an allergen outside those lists or a name that two ingredients
    share.

    >>> facts().loc["butter unsalted", "allergens_us"]
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


def _named(name, names):
    if not isinstance(name, str):
        raise StudentError(f"{name!r} as an ingredient", "the name of an ingredient", "heavy cream 36 %")
    wanted = plain_name(name)
    if wanted in names:
        return names[wanted]
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
    family = facts()["family"]
    word = plain_name(group)
    word = word if word in GROUPS or word in set(family) else word.removesuffix("s")
    families = GROUPS.get(word, (word,))
    if set(families) & set(family):
        return {name for name in names if family[name] in families}
    try:
        return {ingredient_name(group)} & set(names)
    except StudentError as error:
        words = ", ".join(sorted({*GROUPS, *family}))
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
    density = facts()["density_g_per_ml"][name]
    if not density > 0:
        raise StudentError(f"{name}, for which no household weight is tabled", "its mass from a scale", "250 g")
    return float(density)


def _with_its_kind(allergen):
    """An allergen as a label names it: a table written without the kind of nut says so, and does not pass for complete."""
    return f"{allergen} (which kind: see the pack)" if allergen in _BY_KIND else allergen


def _pantry():
    return _pantry_at(data_path("ingredients.csv"))


@read_once
def _pantry_at(path):
    table, names = load(path.name, INGREDIENTS).set_index("ingredient"), {}
    for column in _LISTS:
        table[column] = table[column].map(lambda cell: tuple(w.strip() for w in cell.split(";") if w.strip()))
    for column in _LISTS[1:]:
        table[column] = table[column].map(lambda words: tuple(_with_its_kind(word) for word in words))
    for name, row in table.iterrows():
        where = f"ingredients.csv, {name}"
        for column, known in (("allergens_us", US_ALLERGENS), ("allergens_eu", EU_ALLERGENS)):
            odd = [word for word in row[column] if word.partition(" (")[0] not in known]
            if odd:
                raise StudentError(f"{where}, column '{column}': '{odd[0]}'", "of " + ", ".join(known), known[0])
        for also in (name, *row.also):
            if names.setdefault(plain_name(also), name) != name:
                both = f"{where}: '{also}', which names {names[plain_name(also)]} too"
                raise StudentError(both, "a name of one ingredient only", "a longer name")
    columns = ("also", "family", "density_g_per_ml", "density_form", "allergens_us", "allergens_eu")
    return table[[*columns, "closes_reason", "note", "source"]], names
