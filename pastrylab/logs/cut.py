"""A log's text cut once into lines and cells: by tabs, semicolons, bars, commas or spaces, whichever gives readings."""

import csv
import re
from dataclasses import dataclass

from pastrylab.ground.units import StudentError
from pastrylab.logs.tokens import CLOCK, DATE, NUMBER, SPELT, token

MOST_LINES, LONGEST_LINE = 200_000, 2_000
SEPARATORS = (("\t", "tabs"), (";", "semicolons"), ("|", "bars"), (",", "commas"), (" ", "spaces"))
SAMPLE = 400  # lines that decide

_UNIT = r"(?:(?:°|º|˚|deg(?:rees?)?\.?)?\s*(?P<u>celsius|centigrade|fahrenheit|c|f)|(?P<sign>℃|℉)|°|º|˚)"
_DEGREES = rf"(?P<n>[+\-−–]?[0-9]{{1,12}}(?:[.,][0-9]{{0,20}})?)(?:\s*{_UNIT})?\.?"
TEMPERATURE = re.compile(rf"(?i){_DEGREES}")
_TIME = rf"{DATE}[T\s]+(?:{CLOCK})(?:Z|[+-][0-9]{{2}}:?[0-9]{{2}})?|{CLOCK}|[0-9]{{1,2}}h[0-9]{{2}}|{SPELT}|{NUMBER}"
_SPACED = re.compile(rf"(?i)(?P<t>{_TIME})(?:\s+[-–=:]\s+|\s*=\s*|:?\s+)(?P<d>{_DEGREES}|-+)(?:[\s,;]+(?P<note>.*))?")
_SPACED_NOTE = re.compile(rf"(?i)(?P<t>{_TIME})[:,]?\s+(?P<d>.*)")
_BULLET = re.compile(r"^[-–*•]\s+")
_SPACED_PLAIN = re.compile(
    r"([0-9]{1,9}(?:\.[0-9]{1,9})?|[0-9]{1,4}:[0-9]{2}(?::[0-9]{2})?) +([0-9]{1,9}(?:\.[0-9]{1,9})?)"
)


@dataclass(frozen=True)
class Sheet:
    """A log's text in lines, with the cells of each, without blanks round them; the separator, one of SEPARATORS; and
    that in sentences.
    """

    lines: list[str]
    cells: list[tuple[str, ...]]
    separator: str
    said: tuple[str, ...]


def cut(text):
    """Sheet of a log's text. StudentError: too long a log or a line, or no line that holds a time and a temperature.

    >>> cut("0; 45,5\\n5; 41,0").cells
    [('0', '45,5'), ('5', '41,0')]
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if len(lines) > MOST_LINES:
        raise StudentError(f"a log of {len(lines)} lines", f"at most {MOST_LINES} lines", "one reading every 10 s")
    if max(map(len, lines)) > LONGEST_LINE:
        number, line = next((n, line) for n, line in enumerate(lines, start=1) if len(line) > LONGEST_LINE)
        raise StudentError(f"row {number}, with {len(line)} characters", "one reading in each row", "0, 45.2")
    separator, name = _separator(lines)
    return Sheet(lines, cells_of(lines, separator), separator, (f"The columns are set apart by {name}.",))


def _separator(lines):
    sample = [line for line in lines[: 10 * SAMPLE] if line.strip()][:SAMPLE]
    scores = [sum(map(score, cells_of(sample, separator))) for separator, _ in SEPARATORS]
    if max(scores, default=0) == 0:
        shown = f"text that begins '{sample[0].strip()[:40]}', and" if sample else "an empty text:"
        raise StudentError(f"{shown} no row holds a time and a temperature", *_lacks(sample))
    return SEPARATORS[scores.index(max(scores))]


def _lacks(sample):
    """What a log without a reading needs, and an example, by what stands in its first line that holds a digit."""
    first = next((line.strip() for line in sample if re.search("[0-9]", line)), "")
    if re.fullmatch(rf"(?i){CLOCK}", first):
        return "a temperature behind each time", f"{first} 45.2"
    if TEMPERATURE.fullmatch(first):
        return "a time before each temperature: minutes since the first, or by the clock", f"9:05 {first}"
    if re.search("[a-z]{3}", first):
        return "a line for each reading: first the time, then the temperature, words behind them", "9:05 45.2 stirred"
    return "both in every row", "0, 45.2 or 9:05, 112 F"


def cells_of(lines, separator):
    """The cells of each line, without blanks round them; separator: the first of a pair in SEPARATORS.

    >>> cells_of(['9:05; 45,5; "seed; in"'], ";")
    [('9:05', '45,5', 'seed; in')]
    """
    if separator == " ":
        return [_by_spaces(_BULLET.sub("", line.strip(" \ufeff"), count=1)) for line in lines]
    return [
        _quoted(line, separator) if '"' in line else tuple(map(str.strip, line.strip(" \ufeff").split(separator)))
        for line in lines
    ]


def _quoted(line, separator):
    line = line.strip(" \ufeff")
    try:
        return tuple(map(str.strip, next(csv.reader([line], delimiter=separator, skipinitialspace=True), ())))
    except csv.Error:
        return (line,)


def _by_spaces(line):
    """Time, temperature and note of a line without separators, or the line."""
    plain = _SPACED_PLAIN.fullmatch(line)
    if plain:
        return plain[1], plain[2], ""
    found = _SPACED.fullmatch(line) or _SPACED_NOTE.fullmatch(line)
    return (found["t"], found["d"].strip(), found.groupdict().get("note") or "") if found else (line,)


def is_reading(cell):
    """Whether a cell holds a number, a temperature, a time or a date.

    >>> is_reading("88.7 °F"), is_reading("seed in")
    (True, False)
    """
    return bool(TEMPERATURE.fullmatch(cell)) or token(cell) is not None or bool(re.fullmatch(DATE, cell))


def score(cells):
    """2 where the first two filled cells are readings, 1 where the first and a later one are, else 0.

    >>> score(("9:05", "45.5", "stirred")), score(("9:05", "stirred", "45.5")), score(("time", "degC"))
    (2, 1, 0)
    """
    filled = [cell for cell in cells if cell]
    if len(filled) < 2 or not is_reading(filled[0]):
        return 0
    return 2 if is_reading(filled[1]) else int(any(map(is_reading, filled[2:])))


def rows_named(numbers):
    """The beginning of a sentence about rows, five of them by number.

    >>> rows_named([3]), rows_named([3, 4, 5, 8, 9, 12, 13])
    ('Row 3', 'Rows 3, 4, 5, 8, 9 and 2 more')
    """
    shown = ", ".join(map(str, numbers[:5])) + (f" and {len(numbers) - 5} more" if len(numbers) > 5 else "")
    return f"Row {shown}" if len(numbers) == 1 else f"Rows {shown}"
