"""The temperatures of a log in degC: by what each reading says, the header, a line above, or what the job can be."""

import re

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.cut import TEMPERATURE
from pastrylab.logs.headings import named_unit
from pastrylab.logs.plausible import without_spikes

FAULT_BELOW, FAULT_ABOVE = -30.0, 150.0  # degC, beyond these a probe shows an error code
_MARKS = {"c": "degC", "f": "degF", "℃": "degC", "℉": "degF", "": None}
_SIGN = {"degC": "°C", "degF": "°F"}
_OTHER = {"degC": "degF", "degF": "degC"}
_ASK = 'the unit of the probe: in the header, behind each reading, or chosen at "The numbers are"'


def celsius(rows, columns, asked, job):
    """(temperatures in degC, the unit the log was written in, sentences that say how it is known).

    asked: "degC", "degF" or None. StudentError: a unit that is left open, contradicted, or that the job cannot be.

    >>> from pastrylab.logs.columns import find
    >>> from pastrylab.logs.cut import cut
    >>> from pastrylab.logs.jobs import CHOCOLATE
    >>> from pastrylab.logs.rows import readings
    >>> sheet = cut("9:05, 113 F\\n9:10, 95 F")
    >>> columns = find(sheet, CHOCOLATE)
    >>> celsius(readings(sheet, columns)[0], columns, None, CHOCOLATE)[1]
    'degF'
    """
    values, labels, said = _read(rows.degrees)
    bare, why = _bare(values, labels, rows, columns, asked, job)
    said = [*said, *why]
    if labels is None:
        degrees = values if bare == "degC" else (values - 32) / 1.8
    else:
        units = [label or bare for label in labels]
        degrees = np.where([unit == "degC" for unit in units], values, (values - 32) / 1.8)
    unit = bare or labels[0]
    _held_against(job, values, degrees, unit)
    return degrees, unit, tuple(said)


def sound(degrees):
    """Mask of the readings that are temperatures, not error codes.

    >>> sound(np.array([31.5, 999.9])).tolist()
    [True, False]
    """
    return (degrees >= FAULT_BELOW) & (degrees <= FAULT_ABOVE)


def _read(cells):
    """(numbers, the unit each cell names or None, sentences); None for all units where no cell names one."""
    try:
        return np.array(list(map(float, cells))), None, ()
    except ValueError:
        found = [TEMPERATURE.fullmatch(cell).group("n", "u", "sign") for cell in cells]
    numbers = [number.replace(",", ".").replace("−", "-").replace("–", "-") for number, _, _ in found]
    marks = {(word, sign): _MARKS[(word or sign or "").lower()[:1]] for word, sign in {part[1:] for part in found}}
    labels = [marks[part[1:]] for part in found] if any(marks.values()) else None
    said = ("The numbers have decimal commas.",) if any("," in number for number, _, _ in found) else ()
    return np.array(list(map(float, numbers))), labels, said


def _bare(values, labels, rows, columns, asked, job):
    """(unit of the readings that name none, sentences)."""
    told = [named_unit(text) for text in columns.told if re.search(r"(?i)\bunits?\b|\btemp(erature)?\b", text)]
    header = named_unit(columns.over_temperature) or next(filter(None, told), None)
    written = {label for label in labels or () if label}
    open_ones = labels is None or None in labels
    if asked and header and asked != header and open_ones:
        given = f"{_SIGN[asked]} chosen for a log that says {_SIGN[header]}"
        raise StudentError(given, "one of the two", f"the log's own, {_SIGN[header]}")
    bare = asked or header or (next(iter(written)) if len(written) == 1 else None)
    if not open_ones:
        said = [f"The temperatures are in {' and '.join(_SIGN[u] for u in sorted(written))}: each reading says so."]
    elif bare:
        why = "you said so" if asked else "the header says so" if header else "the readings that name a unit say so"
        said = [f"The temperatures are in {_SIGN[bare]}: {why}."]
    else:
        unread = [i for i in range(len(values)) if labels is None or labels[i] is None]
        bare, why = _by_range(values[unread], rows.lines[unread[0]], job)
        said = [f"No unit is written. {why}"]
    if open_ones and written - {bare}:
        said.append("Readings that name the other unit were read in their own.")
    if header and written and header not in written:
        found = _SIGN[next(iter(written))]
        said.append(f"The header says {_SIGN[header]}, the readings {found}: the readings count.")
    return bare, said


def _by_range(values, line, job):
    """(the unit of numbers without one, why)."""
    sane = values[(values >= FAULT_BELOW) & (values <= FAULT_ABOVE * 1.8 + 32)]
    ends = np.quantile(sane if sane.size else values, [0.05, 0.95])
    least, most = job.unsaid or job.span
    inside = {
        unit: high
        for unit, (low, high) in (("degC", ends), ("degF", (ends - 32) / 1.8))
        if least <= low and high <= most
    }
    warm = [unit for unit, high in inside.items() if high >= job.warm or unit == "degC" and "degF" not in inside]
    # A first reading far above the rest is no spike: in that unit the log would begin hotter than its job can be.
    if len(warm) != 1 or (warm == ["degC"] and sane.size and sane[0] > job.never[1]):
        given = f"temperatures from {values.min():g} to {values.max():g} without a unit (the first in row {line})"
        raise StudentError(given, _ASK, "time (min), temperature (degF)")
    (unit,) = warm
    if len(inside) == 1:
        return unit, f"For {job.name} the numbers can only be {_SIGN[unit]}, and were read so."
    return (
        unit,
        f"They were read as {_SIGN[unit]}: in {_SIGN[_OTHER[unit]]} the log would never be as warm as {job.name}.",
    )


def _held_against(job, values, degrees, unit):
    """StudentError where readings in that unit cannot be those of the job."""
    middle = float(np.median(degrees))
    real = without_spikes(degrees[sound(degrees)])
    beyond = real[(real < job.never[0]) | (real > job.never[1])]
    if job.span[0] <= middle <= job.span[1] and not beyond.size:
        return
    if job.span[0] <= middle <= job.span[1]:
        shown = beyond[0] if unit == "degC" else beyond[0] * 1.8 + 32
        given = f"{shown:.4g} {_SIGN[unit]} in the log, which is not {job.name}"
    else:
        given = f"{np.median(values):.4g} {_SIGN[unit]} in the middle of the log, which is not {job.name}"
    raise StudentError(given, "the unit the probe showed, and the column of its readings", f"{_SIGN[_OTHER[unit]]}")
