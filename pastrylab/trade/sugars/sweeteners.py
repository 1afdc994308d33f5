"""Sweeteners against each other: the sweetness published of each, and swapping one for another."""

import math
from dataclasses import dataclass

from pastrylab.ground.units import In, Quantity, Share, StudentError, show
from pastrylab.trade.pantry import ingredient_name, ingredients
from pastrylab.trade.sugars.graining import HONEY_STAYS

# Relative sweetness, sucrose 100, as (lowest, highest) published: Gaman & Sherrington 1990, The Science of Food; Emodi 1982;
# an open review of 2023 (Nutrients, PMC10346066, table 2); an encyclopedic table; all four read. Fructose and glucose stand
# high in these (170-173, 74-80): sensory work finds 115-175, by strength and temperature, and 60-75 (from memory; 120-180
# read in a popular text). "higher saccharides": 20 as maltodextrin, 50 as the published 35-55 of glucose syrups of DE 35-55
# implies.
SWEETNESS = {
    "sucrose": (100, 100),
    "fructose": (115, 175),
    "glucose": (60, 80),
    "invert sugar": (100, 130),
    "maltose": (30, 33),
    "lactose": (15, 20),
    "galactose": (30, 30),
    "higher saccharides": (20, 50),
    "sorbitol": (50, 60),
    "mannitol": (40, 40),
    "xylitol": (85, 120),
    "maltitol": (50, 90),
    "lactitol": (30, 40),
    "honey": (100, 100),
    "high-fructose corn syrup": (110, 110),
}
_SUGARS = ("sucrose", "glucose", "fructose", "lactose", "maltose", "galactose", "higher_saccharides")


@dataclass(frozen=True)
class Swap:
    """One sweetener in place of another. mass: of the new one (g); water, solids: change (g); sweetness:
    (old_low, old_high, new_low, new_high) in grams of sucrose, None where a component's sweetness is not
    tabled; changes {component: g}; notes; sentence.

    >>> swapped = swap("100 g", "granulated sugar", "honey")
    >>> f"{swapped.water.m_as('g'):.1f}"
    '20.8'
    """

    mass: Quantity
    water: Quantity
    solids: Quantity
    sweetness: tuple[float, float, float, float] | None
    changes: dict
    notes: tuple[str, ...]
    sentence: str

    def __str__(self):
        return " ".join([self.sentence, *self.notes])


def _shares(sweetener):
    """Name and component shares: from ingredients.csv, or a mapping {component: share} that adds up to at
    most 1.
    """
    if not hasattr(sweetener, "items"):
        name = ingredient_name(sweetener)
        row = ingredients()[name]
        found = {c: row[c] for c in ("water", *_SUGARS, "polyols") if row.get(c, 0.0) > 0}
        if "polyols" in found and "sorbitol" in name:  # of the polyols only its sweetness is tabled
            found["sorbitol"] = found.pop("polyols")
        return name, found
    shares = {str(c).replace(" ", "_"): Share().floats(str(c), x) for c, x in sweetener.items()}
    if sum(shares.values()) > 1.001:
        raise StudentError(
            "shares that add up to more than the whole",
            "shares of one sweetener",
            "23 % water and 77 % sucrose",
        )
    return "your own sweetener", shares


def _sweetness(shares):
    low = high = 0.0
    for component, share in shares.items():
        if component == "water":
            continue
        if component.replace("_", " ") not in SWEETNESS:
            return None
        a, b = SWEETNESS[component.replace("_", " ")]
        low, high = low + share * a / 100.0, high + share * b / 100.0
    return low, high


def _held(shares, hold, name):
    if hold == "water":
        value = shares.get("water", 0.0)
    elif hold == "sweetness":
        band = _sweetness(shares)
        if band is None:
            raise StudentError(
                f"{name}, with a component whose sweetness is not in the tables",
                "sugars by name, or hold solids",
                "solids",
            )
        value = 0.5 * sum(band)
    else:
        value = sum(share for component, share in shares.items() if component != "water")
    if value <= 0.005:
        raise StudentError(
            f"{name}, which holds hardly any {hold}",
            f"two sweeteners with {hold} to hold, or another hold",
            "solids",
        )
    return value


def swap(amount, old, new, hold="solids"):
    """Replace one sweetener by another, holding its solids, its water or its sweetness: how much, and what
    changes.

    amount: mass of the old one. old, new: ingredient names ("honey", "invert syrup"), or {component: share of
    mass} with water and sugars by name. hold: "solids" (sugars and polyols), "water" or "sweetness" (middle
    of the published band). Returns Swap. Sources: ingredients.csv; sweetness see SWEETNESS. Raises
    StudentError, also where there is nothing to hold.

    >>> print(swap("100 g", "granulated sugar", "honey").sentence)
    100 g of granulated sugar become 122 g of honey, same solids: water +20.8 g, solids +0.0 g.
    """
    if hold not in ("solids", "water", "sweetness"):
        raise StudentError(f"'{hold}' to hold", "what to hold: solids, water or sweetness", "solids")
    grams = In("g", above=0, example="100 g").floats("amount", amount)
    (old_name, was), (new_name, becomes) = _shares(old), _shares(new)
    mass = grams * _held(was, hold, old_name) / _held(becomes, hold, new_name)
    changes = {c: mass * becomes.get(c, 0.0) - grams * was.get(c, 0.0) for c in {**was, **becomes}}
    water = changes.get("water", 0.0)
    solids = sum(change for c, change in changes.items() if c != "water")
    bands = _sweetness(was), _sweetness(becomes)
    sweetness = None if None in bands else (*(grams * x for x in bands[0]), *(mass * x for x in bands[1]))
    sentence = (
        f"{show(Quantity(grams, 'g'), 3)} of {old_name} become {show(Quantity(mass, 'g'), 3)} of "
        f"{new_name}, same {hold}: "
        f"water {round(water, 1) + 0.0:+.1f} g, solids {round(solids, 1) + 0.0:+.1f} g."
    )
    return Swap(
        Quantity(mass, "g"),
        Quantity(water, "g"),
        Quantity(solids, "g"),
        sweetness,
        changes,
        _notes(changes, sweetness, becomes),
        sentence,
    )


def _notes(changes, sweetness, becomes):
    notes = []
    if sweetness is not None:
        before, after = sum(sweetness[:2]) / 2, sum(sweetness[2:]) / 2
        change = after / before - 1 if before > 0 else math.inf
        if abs(change) >= 0.05 and math.isfinite(change):
            notes.append(f"It is about {1 + change:.1f} times as sweet; tables of sweetness differ.")
    reducing = sum(changes.get(c, 0.0) for c in ("glucose", "fructose", "lactose", "maltose"))
    if abs(reducing) >= 1:
        notes.append(f"It browns {'more' if reducing > 0 else 'less'} ({reducing:+.0f} g of reducing sugars).")
    water = becomes.get("water", 0.0)
    if water > 0 and becomes.get("glucose", 0.0) > HONEY_STAYS * water:
        notes.append("The new one holds much glucose for its water: it can crystallise.")
    return tuple(notes)
