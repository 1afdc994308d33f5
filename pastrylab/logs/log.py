"""A log that was read: its columns as arrays, and how they were read."""

from dataclasses import dataclass, field

import numpy as np

from pastrylab.ground.units import StudentError


@dataclass(frozen=True)
class How:
    """How a log was read: `said`, in sentences; the `unit` it was written in; the `column` the temperatures were taken
    from, and the `columns` they could be; `times`, how those were read; `first`, the first one in minutes as written; and
    `clock`, whether that is a time of the day.

    >>> How().clock
    False
    """

    said: tuple[str, ...] = ()
    unit: str | None = None
    column: str | None = None
    columns: tuple[str, ...] = ()
    times: str | None = None
    first: float | None = None
    clock: bool = False


@dataclass(frozen=True, eq=False)
class Log:
    """A log's columns by name, each an array with a value a reading (`note`: a tuple of words), and `how` they were read.

    `minutes` count from the first reading; nan is what was not read. len() is the number of readings.

    >>> log = Log({"minutes": np.array([0.0, 5.0]), "degC": np.array([45.5, 41.0])})
    >>> len(log), log["degC"].tolist(), "note" in log
    (2, [45.5, 41.0], False)
    """

    columns: dict
    how: How = field(default_factory=How)

    def __len__(self):
        return len(self.columns["minutes"])

    def __getitem__(self, name):
        return self.columns[name]

    def __contains__(self, name):
        return name in self.columns

    def keys(self):
        """The names of its columns; with it dict(log) is a table's columns, for whoever goes on in another library.

        >>> list(Log({"minutes": np.array([0.0]), "degC": np.array([45.5])}).keys())
        ['minutes', 'degC']
        """
        return self.columns.keys()


def log_of(given, numbers, more=()):
    """A Log of what somebody brings: a Log, or any table that gives its columns by name. StudentError for anything else.

    numbers: the columns it must have; more: those it may have. Each becomes an array of floats.

    >>> log_of({"minutes": [0, 5], "degC": [45.5, None]}, ("minutes", "degC"))["degC"].tolist()
    [45.5, nan]
    """
    try:
        found = {name: given[name] for name in (*numbers, *(name for name in more if name in given))}
    except (KeyError, TypeError, IndexError, ValueError):
        raise _no_log() from None
    try:
        columns = {name: np.asarray(column, dtype=float) for name, column in found.items()}
    except (TypeError, ValueError):
        needed = "numbers in " + ", ".join(numbers[:-1]) + f" and {numbers[-1]}"
        raise StudentError("a log with words in it", needed, "my_log.csv, read by this page") from None
    if len({column.shape for column in columns.values()}) != 1 or columns[numbers[0]].ndim != 1:
        raise _no_log()
    return Log(columns, given.how if isinstance(given, Log) else How())


def _no_log():
    return StudentError("something that is not a log", "a log as this page reads it", "my_log.csv")
