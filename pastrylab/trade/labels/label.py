"""What a pack's label says of an ingredient: its composition, each part as low and as high as the label leaves it.

The figures come with their rounding (figures), the kind with what is known of it (rules); what fits both is
narrowed down (bounds). What a label cannot tell is said in sentences.
"""

import functools
import re
from dataclasses import dataclass

from pastrylab.ground.bounds import Contradiction, middle, narrowed
from pastrylab.ground.datasets import COMPONENTS, PARTS_OF_FAT
from pastrylab.ground.grammar import read_text
from pastrylab.ground.units import StudentError
from pastrylab.trade.labels.figures import EU, FIGURES, LABELS, MUST, US, figure, serving_grams, title
from pastrylab.trade.labels.rules import AMOUNTS, CHOCOLATE, DAIRY, FAMILIES, SUGARS, rules_of
from pastrylab.trade.labels.words import read_contents

KINDS = tuple(FAMILIES)
# Beside the percentage on a pack: "min. 70 % cocoa solids", "cocoa: 70 % minimum".
_AT_LEAST = re.compile(
    r"\b(?:min(?:imum)?|at least|not less than|cocoa|cacao|kakao|solids|content|mass)\b[.:]?|[≥>:]", re.I
)
_SLACK = 0.02  # g: two figures that meet exactly are not at odds


@dataclass(frozen=True)
class Label:
    """A label as typed. kind: of KINDS; label: EU or US; serving: what the figures stand for; cocoa: the cocoa percentage;
    the figures as text, in grams (sodium in milligrams); contents: the list of ingredients; density: g/mL, or "".

    >>> Label(kind="dark chocolate", fat="40", carbohydrate="38", sugars="36", protein="6.5", cocoa="64").label
    'EU'
    """

    kind: str
    label: str = EU
    serving: str = ""
    cocoa: str = ""
    fat: str = ""
    saturates: str = ""
    carbohydrate: str = ""
    sugars: str = ""
    added_sugars: str = ""
    polyols: str = ""
    fibre: str = ""
    protein: str = ""
    salt: str = ""
    sodium: str = ""
    contents: str = ""
    density: str = ""


@dataclass(frozen=True)
class Made:
    """What follows from a label, grams in 100 g: `grams` {component: float} adds up to 100, `ends` {component: (low, high)}.

    family: as in ingredients.csv; chocolate: "dark", "milk", "white" or ""; density: g/mL or None; says: what the label
    does not tell, and what was taken for granted. allergens_us, allergens_eu: those the list of ingredients names.
    """

    grams: dict
    ends: dict
    family: str
    chocolate: str
    density: float | None
    says: tuple[str, ...]
    allergens_us: tuple[str, ...]
    allergens_eu: tuple[str, ...]


def label_of(cells):
    """The Label of a row of my-kitchen/ingredients.csv: {column: text}. What the row does not say is as in Label.

    >>> label_of({"ingredient": "my cream", "kind": "cream", "label": "", "fat": "35"}).label
    'EU'
    """
    known = {name: str(cells[name]).strip() for name in Label.__dataclass_fields__ if cells.get(name)}
    known["kind"] = " ".join(known.get("kind", "").casefold().split())
    return Label(**known | {"label": known.get("label", EU).upper()})


@functools.lru_cache(maxsize=256)
def made_of(label):
    """The composition that follows from a Label, as Made. Raises StudentError for a label that does not add up.

    >>> cream = Label("cream", fat="36", carbohydrate="2.9", sugars="2.9", protein="2.1", contents="cream, carrageenan")
    >>> low, high = made_of(cream).ends["water"]
    >>> f"{made_of(cream).grams['water']:.0f} g of water, {low:.0f} to {high:.0f}"
    '58 g of water, 55 to 60'
    """
    if label.kind not in FAMILIES:
        raise StudentError(f"'{label.kind[:40]}' as the kind", "one of " + ", ".join(KINDS), KINDS[0])
    if label.label not in LABELS:
        raise StudentError(f"'{label.label[:40]}' as the label", "EU (per 100 g) or US (per serving)", EU)
    density, contents = _density(label.density), read_contents(label.contents)
    figures = _figures(label, density)
    _names_its_kind(label, contents)
    cocoa = _cocoa_percentage(label)
    _adds_up(label, figures, cocoa)
    rules = rules_of(label.kind, label.label, figures, cocoa, contents)
    try:
        ends = narrowed(rules, dict.fromkeys(AMOUNTS, (0.0, 100.0)))
    except Contradiction as error:
        raise StudentError(
            f"figures that do not go together for {label.kind}: here it fails that {error.rule.says}",
            "the figures as they are printed, the kind it is, and its whole list of ingredients",
            "look at each figure again; the kind 'other' takes what no kind fits",
        ) from None
    grams = _closed(middle(rules, ends))
    columns = (*COMPONENTS, *PARTS_OF_FAT)
    return Made(
        grams={name: grams[name] for name in columns},
        ends={name: (min(ends[name][0], grams[name]), max(ends[name][1], grams[name])) for name in columns},
        family=FAMILIES[label.kind],
        chocolate=label.kind.split()[0] if label.kind in CHOCOLATE else "",
        density=density,
        says=_says(label, ends, contents),
        allergens_us=contents.allergens_us,
        allergens_eu=contents.allergens_eu,
    )


def _closed(grams):
    """As they are, scaled so that the components are 100 g to the last digit."""
    whole = sum(grams[name] for name in COMPONENTS)
    return {name: 100 * mass / whole for name, mass in grams.items()}


def _density(text):
    if not text.strip():
        return None
    typed = read_text(text.strip().removesuffix("g/mL").removesuffix("g/ml"))
    if typed.unit or not 0.2 <= typed.number <= 2:
        raise StudentError(f"'{text[:40]}' as the density", "grams a millilitre, from 0.2 to 2", "1.01")
    return typed.number


def _figures(label, density):
    serving = serving_grams(label.serving, label.label, label.kind, density)
    found = {name: figure(name, getattr(label, name), label.label, serving) for name in FIGURES}
    missing = [name for name in MUST if found[name] is None]
    if missing:
        raise StudentError(f"no figure for '{title(missing[0])}'", "it as the pack has it, 0 where it says 0", "12")
    if label.salt.strip() and label.sodium.strip():
        raise StudentError("both salt and sodium", "one of them, as the pack has it", "salt 0.2")
    which = "sodium" if label.sodium.strip() else "salt"
    return {**found, "salt": figure(which, getattr(label, which), label.label, serving)}


def _cocoa_percentage(label):
    """(low, typical, high). The percentage printed is a minimum: "at least" in 2000/36/EC; 2 % above it is our judgement."""
    text = label.cocoa.strip()
    if not text:
        return None
    if label.kind not in CHOCOLATE:
        raise StudentError(f"a cocoa percentage for {label.kind}", "one for chocolate alone: leave it empty", "64 %")
    try:
        typed = read_text(_AT_LEAST.sub(" ", text))
    except StudentError:
        raise StudentError(f"'{text[:40]}' as the cocoa percentage", "a percentage, as printed", "64 %") from None
    if typed.unit not in ("", "percent") or not 10 <= typed.number <= 100:
        raise StudentError(f"'{text[:40]}' as the cocoa percentage", "from 10 to 100 %", "64 %")
    return typed.number - 0.5, typed.number, typed.number + 2


def _adds_up(label, figures, cocoa):
    """What a look at the figures shows. Raises StudentError in a cook's words."""
    for part, whole in (
        ("saturates", "fat"),
        ("sugars", "carbohydrate"),
        ("added_sugars", "sugars"),
        ("polyols", "carbohydrate"),
        *((("fibre", "carbohydrate"),) if label.label == US else ()),
    ):
        if figures[part] and figures[part].low > figures[whole].high + _SLACK:
            more, less = getattr(label, part), getattr(label, whole)
            raise StudentError(
                f"{title(part)} {more} and {title(whole)} {less}: more {title(part)} than {title(whole)}",
                f"{title(part)} at most the {title(whole)} they are part of",
                "look at the pack again",
            )
    parts = ["fat", "carbohydrate", "protein", "salt", *(("fibre",) if label.label == EU else ())]
    least = sum(figures[name].low for name in parts if figures[name])
    if least > 100 + _SLACK:
        raise StudentError(
            f"{', '.join(title(name) for name in parts if figures[name])} that add up to {least:.0f} g in 100 g",
            "at most 100 g"
            + (
                ": are these figures for 100 g, and not for a serving?"
                if label.label == EU
                else ": is the serving right?"
            ),
            "look at the pack again",
        )
    if cocoa:
        _cocoa_fits(label, figures, cocoa)


def _names_its_kind(label, contents):
    """A whole list names what makes an ingredient of its kind. Raises StudentError."""
    milk = ("whole milk", "skim milk", "milk fat", "whey")
    needed = dict.fromkeys(DAIRY, milk) | {"milk chocolate": milk, "white chocolate": milk}
    needed |= {"dark chocolate": ("cocoa",), "cocoa powder": ("cocoa",)}
    words = needed.get(label.kind)
    if words and contents.given and not contents.unknown and not contents.holds(*words):
        missing = "milk" if words is milk else "cocoa"
        raise StudentError(
            f"a list of ingredients without {missing}, for {label.kind}", "the whole list, or the kind 'other'", missing
        )


def _cocoa_fits(label, figures, cocoa):
    low, printed, _ = cocoa
    if low + figures["sugars"].low > 100 + _SLACK:
        raise StudentError(
            f"{printed:g} % of cocoa and {figures['sugars'].printed:.0f} g of sugars: more than 100 g together",
            "cocoa and sugars that leave room for each other",
            "look at the pack again",
        )
    if label.kind == "dark chocolate" and figures["fat"].low > cocoa[2] + 10:
        raise StudentError(
            f"{figures['fat'].printed:.0f} g of fat and {printed:g} % of cocoa",
            "in dark chocolate nearly all fat is cocoa butter, and that is part of the cocoa",
            "look at the pack again",
        )


def _says(label, ends, contents):
    """What the label leaves open, and what was taken for granted, in sentences."""

    def between(name):
        low, high = ends[name]
        return f"between {low:.1f} and {high:.1f} g"

    said = [f"Water is not on a label. It is what the rest leaves: {between('water')} in 100 g."]
    if label.kind in CHOCOLATE and label.kind != "dark chocolate":
        said.append(f"How much of the fat is milk fat is not printed: {between('milk_fat')}, from the milk's protein.")
    elif ends["milk_fat"][1] - ends["milk_fat"][0] > 0.5 and label.kind not in DAIRY:
        said.append(f"How much of the fat is milk fat is not printed: {between('milk_fat')}.")
    open_sugars = [name for name in SUGARS if ends[name][1] - ends[name][0] > 3]
    if len(open_sugars) > 1:
        said.append(
            f"Which sugars they are is not printed ({', '.join(f'{name} {between(name)}' for name in open_sugars)}): "
            "an estimate of water activity takes the middle."
        )
    if label.kind in ("syrup", "nut paste", "other", "fruit"):
        said.append("Nor is it printed whether sugar is dissolved or stands in crystals.")
    if not contents.given:
        said.append("No list of ingredients was given: with it the error is smaller.")
    elif contents.unknown:
        said.append(f"Not understood in the list: {', '.join(contents.unknown)}. Whatever it may bring was left open.")
    said.append(
        "A pack may differ from its label by more than the rounding: the law leaves makers room. Your scale and a "
        "supplier's sheet come first."
    )
    return tuple(said)
