"""What a right answer is worth: by lesson, a due date, points, and what lateness takes off. The table is marking.csv."""

from dataclasses import dataclass
from datetime import datetime, time, timedelta
from math import ceil
from pathlib import Path

from pastrylab.ground.files import data_path
from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import StudentError

MARKING = Table(
    columns=(
        Column("lesson"),
        Column("due", required=False),
        Column("right_first", "number", low=0, high=1000),
        Column("right_later", "number", low=0, high=1000),
        Column("after_solution", "number", low=0, high=1000),
        Column("off_a_day", "number", low=0, high=100),
        Column("last_day", "count", required=False, low=0, high=366),
    ),
    key=("lesson",),
)
_DAYS = (
    "%Y-%m-%d",
    "%d %b %Y",
    "%d %B %Y",
    "%b %d %Y",
    "%B %d %Y",
    "%d-%b-%y",
    "%d-%b-%Y",
    "%m/%d/%Y",
    "%d/%m/%Y",
    "%d.%m.%Y",
)


@dataclass(frozen=True)
class Rule:
    """How one lesson is marked: points for an answer that is right at the first try, later, and after the worked solution
    was opened; due: when it was due (a datetime with its zone) or None; off_a_day: percent of the points taken for each
    day begun after that; last_day: how many days late it still counts, None without an end.

    >>> Rule("02", None, 1, 0.5, 0.25, 10, None).points(first=False, solution=False, late=2)
    0.4
    """

    lesson: str
    due: datetime | None
    right_first: float
    right_later: float
    after_solution: float
    off_a_day: float
    last_day: int | None

    def late(self, when, extra_days=0):
        """Days begun after the due date, 0 for in time. when: a datetime with its zone.

        >>> due = day_named("2026-10-05", end=True)
        >>> Rule("02", due, 1, 1, 1, 0, None).late(day_named("2026-10-07 08:00"))
        2
        """
        if self.due is None:
            return 0
        return max(0, ceil((when - self.due - timedelta(days=extra_days)) / timedelta(days=1)))

    def points(self, first, solution, late):
        """Points for a right answer. first: at the first try; solution: after the worked solution; late: days begun.

        >>> Rule("02", None, 1, 0.5, 0.25, 10, 3).points(first=True, solution=False, late=4)
        0.0
        """
        whole = self.after_solution if solution else self.right_first if first else self.right_later
        if late and self.last_day is not None and late > self.last_day:
            return 0.0
        return max(0.0, whole * (100 - self.off_a_day * late) / 100)


def day_named(text, where="a date", end=False):
    """A date as typed or as a spreadsheet saved it, as a datetime in this machine's zone: its midnight, or with `end` its end.

    "2026-10-05 17:00" has a time of its own. Raises StudentError for what is no date or can be read two ways.

    >>> day_named("5-Oct-26").isoformat()[:16], day_named("2026-10-05 17:00", end=True).isoformat()[:16]
    ('2026-10-05T00:00', '2026-10-05T17:00')
    """
    words = " ".join(str(text).replace(",", " ").split())
    day, _, clock = words.rpartition(" ") if ":" in words else (words, "", "")
    found = {read.date() for form in _DAYS if (read := _read(day, form))}
    at = _read(clock, "%H:%M") if clock else None
    if len(found) != 1 or (clock and not at):
        why = "which can be read two ways" if len(found) > 1 else "which is no date"
        raise StudentError(f"{where}: {words[:40]}, {why}", "year, month, day", "2026-10-05, or 5 Oct 2026")
    (date,) = found
    if at is None and end:
        return (datetime.combine(date, time()) + timedelta(days=1)).astimezone()
    return datetime.combine(date, at.time() if at else time()).astimezone()


def first_day(text, now):
    """The first day of a term as typed, as a datetime with its zone. now: a datetime with its zone. Raises StudentError for
    no date, and for one that has not come yet: nothing would count.

    >>> first_day("5 Oct 2026", day_named("2026-10-06")).day
    5
    """
    begins = day_named(text, "the first day of the term")
    if begins > now:
        raise StudentError(
            f"the first day of the term: {text.strip()[:40]}, which has not come yet, so that nothing would count",
            "the day this term began",
            "2026-09-01",
        )
    return begins


def _read(text, form):
    try:
        return datetime.strptime(text, form)
    except ValueError:
        return None


def rules(path=None):
    """{lesson: Rule} of marking.csv in force, or of the file at `path`. Raises StudentError naming row, column and remedy.

    >>> rules()["02"].right_first
    1.0
    """
    path = Path(path) if path else data_path("marking.csv")
    found = {}
    for row, read in read_table(path, MARKING, path.name).numbered():
        cells = dict(read)
        lesson = cells.pop("lesson").zfill(2)  # a spreadsheet drops the nought of 02
        if lesson in found:
            raise StudentError(
                f"{path.name}, row {row}: lesson {lesson} a second time", "one row for each lesson", "02"
            )
        due = cells.pop("due")
        last = cells.pop("last_day")
        cells["due"] = day_named(due, f"{path.name}, row {row}, column 'due'", end=True) if due else None
        found[lesson] = Rule(lesson=lesson, last_day=None if last != last else int(last), **cells)
    return found
