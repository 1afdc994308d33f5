"""Which columns of a store room's log are which: times, temperature of the air, humidity, temperature of a surface.

Names decide, or marks behind the numbers (°C, %). Two columns of bare numbers are asked about: 21 and 68 are a cool damp
room as well as a dry warm one in °F.
"""

from dataclasses import dataclass

from pastrylab.ground.units import StudentError
from pastrylab.logs.columns import SAMPLE, Columns, header_of, names_of
from pastrylab.logs.cut import score
from pastrylab.logs.roles import Roles, by_content, by_header, degrees_in
from pastrylab.logs.store.headings import AIR, DEW, HUMIDITY, SURFACE, TEMPERATURES, kind, stem
from pastrylab.logs.vessel import SeveralColumns, asked_for, one_unit

_EXAMPLE = "time; store room °C; humidity %"
_SHARED = ("time", "date", "index", "note")


@dataclass(frozen=True)
class Found:
    """The Columns of a store-room log (its temperature is None where it has humidity alone); the index of its humidity
    or None, whether that is a dew point; the indices of surfaces; the names of all columns.
    """

    columns: Columns
    humidity: int | None
    dew: bool
    surfaces: tuple[int, ...]
    names: tuple[str, ...]


@dataclass(frozen=True)
class _Seen:
    """What is known of the columns: names and header, kind by index, rows of readings, those that hold numbers."""

    names: tuple[str, ...]
    head: tuple[str, ...]
    kinds: dict
    readings: list
    filled: tuple[int, ...]

    def of(self, *kinds):
        return [k for k in self.filled if self.kinds.get(k) in kinds]

    def name(self, k):
        return f"'{self.names[k]}'"


def find(sheet, marks, asked=None, humidity=None, surface=None):
    """Found of a Sheet whose cells bear no "%". marks: what marks behind the numbers say, kind by index.

    asked, humidity, surface: names of columns, or "column 3", or None. StudentError: what is missing or left open.

    >>> from pastrylab.logs.cut import cut
    >>> found = find(cut("time; room °C; RH; shelf °C\\n9:00; 21; 48; 18\\n10:00; 21; 49; 18"), {})
    >>> found.columns.taken, found.names[found.humidity], [found.names[k] for k in found.surfaces]
    ('room °C', 'RH', ['shelf °C'])
    """
    first, head, above, about_head = header_of(sheet)
    readings = [(first + i + 1, row) for i, row in enumerate(sheet.cells[first : first + SAMPLE]) if score(row)]
    seen, roles = _look(head if len(head) > 1 else (), marks, readings, sheet.separator == " ")
    air, why = _air(seen, asked)
    damp = _humidity(seen, air, humidity)
    cold = _surfaces(seen, air, surface)
    if air is None and (damp is None or seen.kinds.get(damp) == DEW):
        raise _nothing(seen)
    told = tuple(sheet.lines[i].replace("_", " ") for i in above)
    whole = told[-1] if head else ""
    over = [head[k].replace("_", " ") if k is not None and k < len(head) > 1 else whole for k in (roles.time, air)]
    offered = tuple(seen.names[k] for k in seen.of(*TEMPERATURES, None))
    taken = "" if air is None else seen.names[air]
    said = (*about_head, *_told(seen, roles, air, damp, cold, why))
    columns = Columns(first, roles.time, air, roles.date, roles.notes, *over, told, offered, taken, said)
    return Found(columns, damp, damp is not None and seen.kinds.get(damp) == DEW, cold, seen.names)


def _look(head, marks, readings, spaced):
    """(_Seen, Roles) of a log. spaced: cut at spaces, so that time, numbers and a note stand in their places already."""
    width = max(len(row) for _, row in readings)
    names = tuple(names_of(head, max(width, len(head))))
    if spaced:
        roles, kinds = Roles(time=0, notes=(max(marks) + 1,), date=None, able=(1,)), dict(marks)
    elif head:
        kinds = {k: kind(cell) or marks.get(k) for k, cell in enumerate(head)}
        roles = by_header(tuple(map(_as_by_header, kinds.values())), readings)
    elif marks:
        roles, kinds = by_content(readings), dict(marks)
    else:
        given = f"row {readings[0][0]}, and no word or mark says which number is what"
        raise StudentError(given, "a first row that names the columns, or °C and % behind the numbers", _EXAMPLE)
    kinds = {k: found for k, found in kinds.items() if k not in (roles.time, roles.date, *roles.notes)}
    places = [k for k in range(width) if k not in (roles.time, roles.date, *roles.notes)]
    filled = tuple(k for k in places if kinds.get(k) not in _SHARED and degrees_in(k, head, readings)[0].size)
    return _Seen(names, head, kinds, readings, filled), roles


def _as_by_header(found):
    """A name by which the reader of other logs' headers knows a kind."""
    return "temp" if found in TEMPERATURES else "x" if found is None else found if found in _SHARED else "limit"


def _air(seen, asked):
    """(index of the air's temperature or None, why it)."""
    if asked:
        return asked_for(asked, seen.names), " You chose it."
    able = one_unit(seen.of(*TEMPERATURES), seen.head, seen.readings)
    if len(able) > 1:
        own = {stem(seen.names[k]) for k in seen.of(HUMIDITY)} - {""}
        rest = [k for k in able if seen.kinds[k] == AIR or stem(seen.names[k]) in own]
        able = rest or able
    if len(able) == 1:
        return able[0], ""
    if not able:
        spare = seen.of(None)
        if spare and seen.of(HUMIDITY):
            return (spare[0], "") if len(spare) == 1 else _ask(seen, spare)
        return (None, "") if not spare else _ask(seen, spare)
    return _ask(seen, able)


def _ask(seen, able):
    names = [seen.names[k] for k in able]
    raise SeveralColumns(
        f"columns that can be the air's temperature: {', '.join(map(seen.name, able))}",
        'the one of the air in the store, chosen at "The temperatures are in"; or a first row that names room, humidity and '
        "shelf",
        "time; room °C; humidity %; shelf °C",
        names,
    )


def _humidity(seen, air, asked):
    """Index of the humidity that belongs to the air, or of a dew point; None where there is none."""
    if asked:
        return asked_for(asked, seen.names)
    wet = seen.of(HUMIDITY) or seen.of(DEW)
    if len(wet) < 2:
        return wet[0] if wet else None
    if air is not None:
        same = [k for k in wet if stem(seen.names[k]) == stem(seen.names[air])]
        airs = seen.of(*TEMPERATURES)
        if len(same) != 1 and len(airs) == len(wet):
            same = [wet[airs.index(air)]] if air in airs else []
        if len(same) == 1:
            return same[0]
    raise StudentError(
        f"several columns of humidity: {', '.join(map(seen.name, wet))}",
        "one, or names that say which temperature each belongs to",
        "time; room °C; room %; shelf °C; shelf %",
    )


def _surfaces(seen, air, asked):
    if asked:
        return (asked_for(asked, seen.names),)
    wet = {stem(seen.names[k]) for k in seen.of(HUMIDITY)} - {""}
    able = one_unit(seen.of(SURFACE), seen.head, seen.readings)
    return tuple(k for k in able if k != air and stem(seen.names[k]) not in wet)


def _nothing(seen):
    """StudentError for a log that holds neither temperature nor relative humidity."""
    found = {seen.kinds.get(k): k for k in seen.filled}
    if "extreme" in found:
        given = f"{seen.name(found['extreme'])}: highest and lowest of each day, not the readings"
        return StudentError(given, "the readings one by one, each with its time", _EXAMPLE)
    if "water" in found:
        given = f"{seen.name(found['water'])}, which is not the relative humidity"
        return StudentError(given, "the relative humidity in %, beside the temperature", _EXAMPLE)
    return StudentError("a log without temperature or humidity", "a column of each, with names", _EXAMPLE)


def _told(seen, roles: Roles, air, damp, cold, why):
    """Sentences that name the columns taken and those left."""
    times = [k for k in (roles.date, roles.time) if k is not None]
    said = []
    if air is not None:
        said.append(f"The air's temperature is that of {seen.name(air)}.{why}")
    if damp is not None:
        what = "The dew point" if seen.kinds.get(damp) == DEW else "The humidity"
        said.append(f"{what} is that of {seen.name(damp)}.")
    if cold:
        whose = (
            f"the coldest of {', '.join(map(seen.name, cold))}" if len(cold) > 1 else f"that of {seen.name(cold[0])}"
        )
        said.append(f"The surface's temperature is {whose}.")
    said.append(f"The times are those of {' and '.join(map(seen.name, times))}.")
    taken = {*times, air, damp, *cold, *roles.notes}
    said += [f"{seen.name(k)} is not the relative humidity." for k in seen.of("water") if damp is None]
    left = [seen.name(k) for k in seen.filled if k not in taken]
    return (*said, f"Left out: {', '.join(left)}.") if left else tuple(said)
