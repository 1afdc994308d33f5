"""Which of a log's columns is the vessel's temperature, where several can be. What is left open is asked for."""

import re

import numpy as np

from pastrylab.ground.units import StudentError
from pastrylab.logs.headings import role
from pastrylab.logs.roles import degrees_in


class SeveralColumns(StudentError):
    """Several columns can hold the temperature: `columns` names them."""

    def __init__(self, given, needed, example, columns):
        super().__init__(given, needed, example)
        self.columns = tuple(columns)


def choose(able, names, head, readings, job, asked):
    """(the temperature's column, a sentence that says why it, with a blank before it).

    >>> from pastrylab.logs.jobs import CHOCOLATE
    >>> names = ["time", "bowl °C", "room °C"]
    >>> choose((1, 2), names, names, [(2, ("0", "45.5", "21.0"))], CHOCOLATE, None)
    (1, ' Its name says bowl.')
    """
    if asked:
        return asked_for(asked, names), " You chose it."
    if len(able) == 1:
        return able[0], ""
    if not able:
        raise _several(others(head), names, job, f"columns of temperatures of which none names the {job.vessel}")
    rest = one_unit(able, head, readings)
    if len(rest) == 1:
        return rest[0], " The other one says the same in °F."
    own = [k for k in rest if k < len(head) and re.search(job.words, head[k].replace("_", " "), re.IGNORECASE)]
    if len(own) == 1:
        return own[0], f" Its name says {job.vessel}."
    within = [k for k in rest if _can_be(degrees_in(k, head, readings), job)]
    if len(within) == 1:
        return within[0], f" Of those that hold temperatures it alone is ever as warm as {job.name}."
    raise _several(able, names, job, "several columns of temperatures")


def others(head):
    """Columns whose names say that they hold something else than the vessel's temperature.

    >>> others(["time", "bowl", "room"])
    [2]
    """
    return [k for k, cell in enumerate(head) if role(cell) == "other"]


def _several(able, names, job, what):
    shown = ", ".join(f"'{names[k]}'" for k in able)
    needed = (
        f'the one whose probe was in the {job.vessel}: chosen at "The temperatures are in", or {job.vessel} over it'
    )
    example = f"minutes, {job.vessel} (degC), room (degC)"
    return SeveralColumns(f"{what}: {shown}", needed, example, [names[k] for k in able])


def asked_for(asked, names):
    """Index of the column somebody chose, by its name or as "column 3". StudentError where there is none such.

    >>> asked_for("column 2", ["time", "bowl"])
    1
    """

    def plain(name):
        return " ".join(str(name).replace("_", " ").casefold().split())

    for k, name in enumerate(names, start=1):
        if plain(asked) in (plain(name), f"column {k}", str(k)):
            return k - 1
    shown = ", ".join(f"'{name}'" for name in names)
    raise StudentError(f"no column '{str(asked)[:40]}'", "one that stands in the log", shown)


def one_unit(able, head, readings):
    """Columns without those in degF that say what another says in degC.

    >>> one_unit((1, 2), ("time", "°C", "°F"), [(2, ("0", "45.0", "113.0")), (3, ("5", "41.0", "105.8"))])
    [1]
    """
    read = {k: degrees_in(k, head, readings) for k in able}
    celsius = [numbers for numbers, unit in read.values() if unit == "degC"]

    def repeats(k):
        numbers, unit = read[k]
        same = [c for c in celsius if len(c) == len(numbers)]
        return unit == "degF" and any(np.all(np.abs((numbers - 32) / 1.8 - c) < 0.6) for c in same)

    return [k for k in able if not repeats(k)]


def _can_be(column, job):
    """Whether a column can hold the job's temperatures; where its unit is not known, in either."""
    numbers, unit = column
    if not numbers.size:
        return False
    low, high = np.quantile(numbers, [0.05, 0.95])
    sizes = {"degC": (low, high), "degF": ((low - 32) / 1.8, (high - 32) / 1.8)}
    return any(
        top >= job.warm and job.never[0] <= bottom and top <= job.never[1]
        for name, (bottom, top) in sizes.items()
        if unit in (None, name)
    )
