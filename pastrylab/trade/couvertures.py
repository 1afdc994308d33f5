"""Couvertures of one's own: a product by the name its owner calls it, with the bands of its supplier's sheet."""

import re
from dataclasses import dataclass

from pastrylab.ground import own
from pastrylab.ground.constants import FORM_VI_MELTS, STAND_TO
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import Quantity, StudentError, read_text
from pastrylab.trade.pantry import ingredient_name, own_ingredients

_COLDEST = 20.0  # degC; our own judgement


@dataclass(frozen=True)
class Couverture:
    """A couverture of one's own: its name, its kind, and ((melt low, high), (cool ...), (work ...)) of its supplier, degC.

    >>> Couverture("my dark 66", "dark", ((45.0, 50.0), (27.0, 28.0), (31.0, 32.0)), "the supplier's sheet").kind
    'dark'
    """

    name: str
    kind: str
    bands: tuple[tuple[float, float], ...]
    source: str


def own_couvertures():
    """(couvertures, faults): {name: Couverture} of my-kitchen/couvertures.csv and the class's, and a StudentError for each
    row that cannot be used.

    >>> own_couvertures()[1]
    ()
    """
    found = _own_couvertures(own.rows("couvertures"), own_ingredients()[0])
    return {mine.name: mine for mine in found[0].values()}, found[1]


_TO = re.compile(r"\s*(?:\bto\b|\band\b|–|—|\.\.+|(?<=[\d°CFcf])\s*-)\s*", re.I)
_DEGREES = "degC", "degF"


def read_band(text, what="the band"):
    """(low, high) in degC of a band as a supplier's sheet prints it: "45-50 °C", "113 to 122 F", "31.5".

    Without a unit, numbers above 60 can only be °F. what: how it is called when refused. Raises StudentError.

    >>> read_band("113 to 122 F"), read_band("31,5")
    ((45.0, 50.0), (31.5, 31.5))
    """
    if not text.strip():
        raise StudentError(f"nothing for {what}", "two temperatures", "45 to 50 °C")
    ends = [end for end in _TO.split(text.strip()) if end]
    try:
        typed = [read_text(end, "[temperature]") for end in ends]
    except StudentError as error:
        raise StudentError(f"{error.given} for {what}", "two temperatures", "45 to 50 °C") from None
    units = {one.unit for one in typed if one.unit}
    if not 1 <= len(typed) <= 2 or len(units) > 1 or not units <= set(_DEGREES):
        raise StudentError(f"'{text.strip()[:40]}' for {what}", "two temperatures, in one unit", "45 to 50 °C")
    unit = units.pop() if units else "degF" if min(one.number for one in typed) > 60 else "degC"
    degrees = [round(float(Quantity(one.number, unit).m_as("degC")), 2) for one in typed]
    return degrees[0], degrees[-1]


def checked_couverture(cells):
    """The Couverture of a row: {"couverture": name, "kind": ..., "melt_low": degC, ...}. Raises StudentError for a name that
    is taken and for bands that no chocolate of its kind can have.

    Working above where crystals stand, cooling above the working band, melting out below form VI: the limits are those of
    ground/constants; a cooling band below 20 degC is refused by our own judgement.

    >>> bands = {"melt_low": 45, "melt_high": 50, "cool_low": 27, "cool_high": 28, "work_low": 31, "work_high": 32}
    >>> checked_couverture({"couverture": "my dark 66", "kind": "dark", "source": ""} | bands).bands[2]
    (31, 32)
    """
    name, kind = " ".join(str(cells["couverture"]).split()), cells["kind"]
    _free_name(name, kind)
    bands = tuple((cells[f"{stage}_low"], cells[f"{stage}_high"]) for stage in own.STAGES)
    for stage, (low, high) in zip(own.STAGES, bands, strict=True):
        if low > high:
            raise StudentError(
                f"{stage}: {low:g} to {high:g} °C", "the lower temperature first", f"{high:g} to {low:g}"
            )
    (melt, _), (cold, cool), (work, top) = bands
    lost = STAND_TO[kind][1]
    if top > lost:
        raise StudentError(
            f"a working band up to {top:g} °C", f"at most {lost:g} °C: above it {kind} chocolate loses its temper", "32"
        )
    if melt < FORM_VI_MELTS:
        raise StudentError(
            f"melting out from {melt:g} °C", f"above {FORM_VI_MELTS:g} °C, where the last crystals melt", "45 to 50"
        )
    if cold < _COLDEST:
        raise StudentError(f"cooling to {cold:g} °C", f"{_COLDEST:g} °C or more: below it chocolate sets", "27 to 28")
    if cool > top or cold > work:
        raise StudentError(
            f"cooling to {cold:g} to {cool:g} °C and working at {work:g} to {top:g} °C",
            "cooling below the working band",
            "cool 27 to 28, work 31 to 32",
        )
    return Couverture(name, kind, bands, cells["source"])


def _free_name(name, kind):
    if not any(letter.isalpha() for letter in name) or len(name) > 60:
        raise StudentError(f"'{name[:60]}' as a name", "letters, at most 60", "my dark 66 %")
    try:
        taken = ingredient_name(name)
    except StudentError:
        taken = ""
    if name.casefold() in STAND_TO or (taken and taken not in own_ingredients()[0]):
        raise StudentError(f"'{name}', a name that is taken", "a name of its own", f"my {name}")
    if taken and own_ingredients()[0][taken].chocolate != kind:
        raise StudentError(f"'{name}' as {kind} chocolate", "the kind that its label has", "the same kind in both")


def own_couverture(kind):
    """The Couverture of one's own of that name, None where there is none.

    >>> own_couverture("dark") is None
    True
    """
    if str(kind).strip().casefold() in STAND_TO:
        return None
    added = own.rows("couvertures")
    return _own_couvertures(added, own_ingredients()[0])[0].get(plain_name(str(kind))) if added.rows else None


_couvertures = {}


def _own_couvertures(added, labels):
    """({plain name: Couverture}, faults); made again when a file has changed."""
    if _couvertures.get("of") is not None and _couvertures["of"][0] is added and _couvertures["of"][1] is labels:
        return _couvertures["made"]
    found, faults = {}, list(added.faults)
    for row in added.rows:
        try:
            mine = checked_couverture(row.cells)
            if plain_name(mine.name) in found:
                raise StudentError(f"'{mine.name}' again", "each couverture once", f"{mine.name} 2")
        except StudentError as error:
            faults.append(own.said_at(row, error))
            continue
        found[plain_name(mine.name)] = mine
    _couvertures.update(of=(added, labels), made=(found, tuple(faults)))
    return _couvertures["made"]
