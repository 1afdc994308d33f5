"""Meter readings kept as rows: when, of what, over the salt, as read, the meter's error; corrected, compared and drawn."""

import csv
import io
from dataclasses import dataclass
from datetime import datetime

import numpy as np
from matplotlib.dates import date2num, num2date
from matplotlib.ticker import FuncFormatter, MaxNLocator

from pastrylab.ground import careful
from pastrylab.ground.units import Quantity, StudentError
from pastrylab.page.picture import INK, LINE, LOST, Picture
from pastrylab.trade import keeping, water_activity
from pastrylab.trade.keeping.estimates import AW, METER_ERROR

HEADER = ("when", "filling", "salt", "slurry in °C", "over the slurry", "over the filling", "meter good to")
LEGEND = (
    "Rings: as read. Dots: corrected by what the meter showed over the salt on that day; the bars, its error. Dashed red: "
    "0.85, where the Food Code's tables draw a line. A reading decides no class by itself, and no days."
)
_LEAST_SEEN = 0.0005  # less than a meter shows


@dataclass(frozen=True)
class Row:
    """One reading, as it was taken: temperature of the slurry in degC, the rest plain numbers."""

    when: datetime
    filling: str
    salt: str
    slurry: float
    over_salt: float
    reading: float
    error: float

    @property
    def offset(self):
        """By how much the meter reads too high over its salt; 0 where it shows none of it. StudentError: no such salt."""
        return offset(self.over_salt, self.salt, Quantity(self.slurry, "degC"))

    @property
    def corrected(self):
        return self.reading - self.offset

    @property
    def day(self):
        return f"{self.when.day} {self.when:%b %Y}"

    def __str__(self):
        shown = careful.written_up(self.corrected, 3)
        return (
            f"{self.day}, {self.when:%H:%M}: {self.filling}, read {self.reading:.3f}, corrected {shown}, give or take "
            f"{careful.written_up(self.error, 3)}"
        )


def offset(over_salt, salt, slurry):
    """By how much a meter reads too high over a salt slurry at that temperature, to what a meter shows."""
    found = water_activity.meter_offset(over_salt, salt, slurry)
    return found if abs(found) >= _LEAST_SEEN else 0.0


def checked(row):
    """The row, whose numbers are such as a meter shows. StudentError for one that is not."""
    AW.floats("the reading", row.reading)
    AW.floats("the corrected reading", row.corrected)
    METER_ERROR.floats("the meter's error", row.error)
    return row


def written(rows):
    """Rows as CSV, a line a reading below the names of the columns."""
    out = io.StringIO()
    sheet = csv.writer(out, lineterminator="\n")
    sheet.writerow(HEADER)
    for row in rows:
        numbers = (f"{x:g}" for x in (row.slurry, row.over_salt, row.reading, row.error))
        sheet.writerow((row.when.isoformat(" ", "minutes"), row.filling, row.salt, *numbers))
    return out.getvalue()


def read(text):
    """The rows of such a CSV, in the order of time, also as a spreadsheet with decimal commas saves it.

    Raises StudentError naming the line that is none: nothing of one's own is left out in silence.
    """
    between = ";" if text.partition("\n")[0].count(";") >= len(HEADER) - 1 else ","
    lines = [
        (number, line) for number, line in enumerate(csv.reader(io.StringIO(text), delimiter=between), 1) if any(line)
    ]
    if not lines or [cell.strip() for cell in lines[0][1]] != list(HEADER):
        raise StudentError(
            "a sheet without the names of its columns", ", ".join(HEADER), "the first line as it was kept"
        )
    return sorted((_row(number, line) for number, line in lines[1:]), key=lambda row: row.when)


def _row(number, line):
    try:
        when, filling, salt, *numbers = (cell.strip() for cell in line)
        row = Row(datetime.fromisoformat(when), filling, salt, *(float(cell.replace(",", ".")) for cell in numbers))
        checked(row)
    except (TypeError, ValueError, StudentError):
        raise StudentError(
            f"line {number} of the kept readings, which is none: {', '.join(line)[:60]}",
            ", ".join(HEADER),
            "2026-11-27 10:20, dark ganache, sodium chloride, 22, 0.753, 0.920, 0.015",
        ) from None
    return row


def compared(rows):
    """What rows show in a sentence: a change only where it is more than both errors together."""
    first, last = rows[0], rows[-1]
    now = f"{careful.written_up(last.corrected, 3)} corrected, give or take {careful.written_up(last.error, 3)}"
    if len(rows) == 1:
        return f"One reading of {last.filling}, {last.day}: {now}. {keeping.IN_SHORT}"
    many = f"{len(rows)} readings from {first.day} to {last.day}; the last, of {last.filling}: {now}."
    if len({row.filling for row in rows}) > 1:
        return f"{many} They are of several fillings, so no change is told. {keeping.IN_SHORT}"
    change = last.corrected - first.corrected
    if careful.above(round(abs(change), 9), round(first.error + last.error, 9)):
        said = (
            f"It has {'risen' if change > 0 else 'fallen'} by {abs(change):.3f} since the first: more than both errors."
        )
    else:
        said = f"Since the first it has moved by {abs(change):.3f}, within the two errors: no change can be told."
    return f"{many} {said} {keeping.IN_SHORT}"


class Journal(Picture):
    """Readings over time: as read, corrected, and with the error of the meter."""

    def __init__(self):
        super().__init__(height=4.0)
        axes = self.axes
        axes.set_title("My readings, corrected by the salt", fontsize=14, loc="left")
        axes.set_xlabel("day of the reading")
        axes.set_ylabel("water activity")
        self._line = axes.axhline(0.85, color=LOST, lw=1.6, ls=(0, (6, 3)), label="0.85")
        (self._raw,) = axes.plot([], [], "o", ms=8, mfc="none", mec=INK, mew=1.4, label="as read")
        self._errors = axes.vlines([], [], [], color=LINE, lw=2, label="meter's error")
        (self._ends,) = axes.plot([], [], "_", ms=12, mew=2, color=LINE)
        (self._right,) = axes.plot([], [], "o", ms=7, color=LINE, label="corrected")
        axes.xaxis.set_major_locator(MaxNLocator(5, integer=True))  # whole days
        axes.xaxis.set_major_formatter(FuncFormatter(_day))
        axes.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0), fontsize=11)

    def update(self, *, rows, system="metric"):
        """rows: of one series, in the order of time. Returns the sentence."""
        at = np.array([date2num(row.when) for row in rows])
        right, errors = (np.array([getattr(row, name) for row in rows]) for name in ("corrected", "error"))
        raw = np.array([row.reading for row in rows])
        self._raw.set_data(at, raw)
        self._right.set_data(at, right)
        self._errors.set_segments([[(x, y - e), (x, y + e)] for x, y, e in zip(at, right, errors, strict=True)])
        self._ends.set_data(np.tile(at, 2), np.concatenate((right - errors, right + errors)))
        edge = max(0.06 * (at[-1] - at[0]), 1.5)
        every = np.concatenate((right - errors, right + errors, raw))
        self.axes.set(xlim=(at[0] - edge, at[-1] + edge), ylim=(every.min() - 0.01, every.max() + 0.01))
        self.renew()
        self.alt = compared(rows)
        return self.alt


def _day(number, _place):
    when = num2date(number)
    return f"{when.day} {when:%b}"
