"""Read a store room's log: temperature and humidity beside each other, from any logger or a sheet written by hand.

The way is that of every log: cut -> columns -> rows -> degrees -> times. What is new is the second quantity.
"""

from dataclasses import replace

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.columns import Columns
from pastrylab.logs.cut import TEMPERATURE
from pastrylab.logs.degrees import celsius
from pastrylab.logs.headings import named_unit
from pastrylab.logs.jobs import STORE
from pastrylab.logs.log import Log
from pastrylab.logs.reader import asked_form, asked_unit, how_read, text_of
from pastrylab.logs.rows import readings, without
from pastrylab.logs.store.cells import cut_store
from pastrylab.logs.store.columns import Found, find
from pastrylab.logs.store.headings import HUMIDITY
from pastrylab.logs.store.humidity import of_column, of_dew_point
from pastrylab.logs.times import hinted, to_minutes

_COLDEST, _WARMEST = -40.0, 60.0  # degC: beyond these it is a sensor's code, no store


def read_store(path_or_text, unit=None, times=None, column=None, humidity=None, surface=None):
    """A Log of a store room: `minutes` from its first reading, `degC` of the air, `humidity` relative, as a share;
    `surface` in degC where a shelf or a wall was measured, and `note` where there are notes. What was not read is nan.

    path_or_text: a path, bytes, or text with a line break. unit: "degC" or "degF", for a log that names none. times: as
    read_log. column, humidity, surface: the names of those columns, or "column 3", for a log that leaves it open.
    StudentError: names row, column and remedy, or asks for what the log leaves open. A dew point becomes humidity by the
    air's temperature; grams of water in the air are refused.

    >>> log = read_store("time, room degC, humidity %\\n9:00, 21.0, 48\\n10:00, 21.5, 47")
    >>> log["humidity"].tolist(), log["degC"].tolist()
    ([0.48, 0.47], [21.0, 21.5])
    """
    unit, times = asked_unit(unit), asked_form(times)
    text, about_file = text_of(path_or_text)
    sheet, marks = cut_store(text)
    found = find(sheet, marks, column, humidity, surface)
    leading = found.columns if found.columns.temperature is not None else _humidity_leads(found)
    rows, about_rows = readings(sheet, leading)
    air, about_air, unit = _air(rows, found, unit)
    damp, about_damp = _humidity(sheet, rows, found, marks, air, unit)
    cold, about_cold = _surface(sheet, rows, found, unit)
    _told_times(rows, leading, times)
    read = to_minutes(rows, np.nan_to_num(air), leading.over_time, times, STORE)
    columns, about_order = _in_order(read.minutes, air, damp, cold, rows.notes)
    said = (*about_file, *sheet.said, *found.columns.said, *about_rows, *about_air, *about_damp, *about_cold)
    return Log(columns, how_read((*said, *read.said, *about_order), unit, found.columns, read))


def _humidity_leads(found: Found) -> Columns:
    """Columns in which the humidity stands where a temperature would: its rows are then the log's."""
    return replace(found.columns, temperature=found.humidity)


def _air(rows, found, unit):
    """(degC of the air, nan where a probe showed an error code; sentences; unit)."""
    if found.columns.temperature is None:
        return np.full(len(rows.lines), np.nan), ("No temperature stands in this log.",), None
    degrees, unit, said = celsius(rows, found.columns, unit, STORE)
    _not_between_stores(degrees, unit)
    good = _of_a_store(degrees)
    if good.mean() < 0.9:
        line = rows.lines[int(np.flatnonzero(~good)[0])]
        given = f"temperatures that no store can have, the first in row {line}"
        raise StudentError(given, "the unit the logger showed, and the column of the air", "time; room °C; humidity %")
    if not good.all():
        said = (*said, f"Error codes of the probe: {int((~good).sum())}. Left out as gaps.")
    return np.where(good, degrees, np.nan), said, unit


def _of_a_store(degrees):
    """Mask of temperatures that a store can have; a probe that starts anew shows 85 °C, another 127."""
    return (degrees >= _COLDEST) & (degrees <= _WARMEST)


def _not_between_stores(degrees, unit):
    """StudentError for a middle that is too cold for a refrigerator and too warm for a freezer: the unit is wrong."""
    middle = float(np.median(degrees))
    if -12.0 < middle < -1.0:
        shown = middle if unit == "degC" else 1.8 * middle + 32
        sign, other = ("°C", "°F") if unit == "degC" else ("°F", "°C")
        given = f"{shown:.4g} {sign} in the middle of the log: no store, no refrigerator and no freezer stands at that"
        raise StudentError(given, "the unit the logger showed", other)


def _cells(sheet, rows, k):
    """The cells of a column in those rows."""
    picked = (sheet.cells[line - 1] for line in rows.lines)
    return [row[k] if len(row) > k else "" for row in picked]


def _humidity(sheet, rows, found, marks, air, unit):
    """(shares, nan where none was read; sentences)."""
    if found.humidity is None:
        return np.full(len(rows.lines), np.nan), ("No humidity stands in this log.",)
    if found.dew:
        dew, said = _degrees(sheet, rows, found, found.humidity, unit)
        return of_dew_point(air, dew), (*said, "The humidity was worked out from the dew point.")
    cells, name = _cells(sheet, rows, found.humidity), found.names[found.humidity]
    return of_column(cells, rows.lines, name, marks.get(found.humidity) == HUMIDITY)


def _surface(sheet, rows, found, unit):
    """(degC of the coldest surface or None, sentences)."""
    if not found.surfaces:
        return None, ()
    read = [_degrees(sheet, rows, found, k, unit) for k in found.surfaces]
    columns = np.array([degrees for degrees, _ in read])
    coldest = np.where(np.isnan(columns).all(axis=0), np.nan, np.nanmin(np.nan_to_num(columns, nan=np.inf), axis=0))
    return coldest, tuple(dict.fromkeys(sentence for _, said in read for sentence in said))


def _degrees(sheet, rows, found, k, unit):
    """(degC of a second column of temperatures, nan where there is none; sentences)."""
    cells = _cells(sheet, rows, k)
    filled = [bool(TEMPERATURE.fullmatch(cell)) for cell in cells]
    out = np.full(len(cells), np.nan)
    if not any(filled):
        return out, (f"'{found.names[k]}' holds no temperature.",)
    over = found.names[k]
    own = named_unit(over)
    part = without(rows._replace(degrees=cells), filled)
    degrees, _unit, _said = celsius(part, replace(found.columns, over_temperature=over, told=()), own or unit, STORE)
    out[filled] = np.where(_of_a_store(degrees), degrees, np.nan)
    missing = len(cells) - int(np.isfinite(out).sum())
    return out, (f"'{found.names[k]}' holds no temperature in {missing} rows.",) if missing else ()


def _told_times(rows, columns, asked):
    """StudentError for bare numbers as times: minutes, hours and days of a store room all look alike."""
    if (
        set(rows.forms) == {"number"}
        and not asked
        and hinted(columns.over_time) not in ("minutes", "seconds", "hours", "days")
    ):
        ends = f"{min(rows.values):g} to {max(rows.values):g}"
        given = f"times from {ends} without a unit, which can be minutes, hours or days"
        needed = 'dates with clock times, or what the times are: over their column, or chosen at "The times are"'
        raise StudentError(given, needed, "time (h); room °C; humidity %")


def _in_order(minutes, air, damp, cold, notes):
    """({name: column} sorted and counted from the first reading, of readings at one time the most humid; sentences)."""
    order = np.lexsort((np.nan_to_num(damp, nan=-1.0), minutes))
    counted = np.round(minutes - minutes.min(), 6)[order]
    last = np.append(counted[1:] != counted[:-1], True)
    if last.sum() < 2:
        given = "a log whose readings all have one time"
        raise StudentError(given, "readings at two times or more", "9:00; 18.2; 48 and 10:00; 18.4; 47")
    said = ["The rows were not in the order of time and have been sorted."] if np.any(np.diff(minutes) < 0) else []
    if not last.all():
        repeated = int((~last).sum())
        said.append(f"Repeated times: {repeated}. Of the readings at one time the most humid was kept.")
    kept = order[last]
    columns = {"minutes": counted[last], "degC": air[kept], "humidity": damp[kept]}
    if cold is not None:
        columns["surface"] = cold[kept]
    if any(notes):
        columns["note"] = tuple(notes[i] for i in kept)
    return columns, tuple(said)
