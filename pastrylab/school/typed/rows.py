"""Exercises that an instructor adds without code: a row of own_exercises.csv becomes an Exercise like any other."""

import functools
import re
from dataclasses import dataclass

from pastrylab.ground.errors import StudentError
from pastrylab.ground.files import data_path, read_once
from pastrylab.ground.money import Money
from pastrylab.ground.quantities import symbol
from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import Quantity
from pastrylab.school.engine import Exercise, Slip
from pastrylab.school.typed import cells
from pastrylab.school.typed.kinds import is_reading, is_steps, kind, plain
from pastrylab.school.typed.nodes import Name, Number
from pastrylab.school.typed.reckon import reckoned
from pastrylab.school.typed.tree import tree
from pastrylab.school.typed.written import Line

SHEET = "own_exercises.csv"
_SLIPS = (1, 2, 3, 4)
OWN_EXERCISES = Table(
    columns=(
        Column("exercise"),
        Column("title"),
        Column("question"),
        Column("sums", "formula", required=False),
        Column("answer", "formula"),
        Column("unit", required=False),
        Column("tolerance", "formula"),
        Column("because", required=False),
        Column("lowest", "formula", required=False),
        Column("highest", "formula", required=False),
        Column("limit", required=False, choices=("most", "least")),
        Column("hint"),
        *(
            Column(f"slip {k}{says}", kind, required=False)
            for k in _SLIPS
            for says, kind in (("", "formula"), (" says", "text"))
        ),
    ),
    key=("exercise",),
)
_ID = re.compile(r"(0[1-9]|[1-9][0-9])\.[a-z0-9]+(-[a-z0-9]+)*")
_LIMITS = {"most": "high", "least": "low", "": ""}
_MOST_MONEY = 10**9


@dataclass(frozen=True)
class Sheet:
    """Exercises of the sheet by id; faults: (id of the exercise, StudentError) for each row that makes none.

    >>> survey().exercises
    {}
    """

    exercises: dict[str, Exercise]
    faults: tuple[tuple[str, StudentError], ...] = ()


def survey(source=None):
    """The Sheet in force, or that of `source`: a path, CSV text or bytes. A row at fault takes no other with it.

    >>> survey("exercise,title\\n02.mine,Mine\\n").faults[0][1].given
    "own_exercises.csv, row 1: no column 'question', none 'answer', none 'tolerance', none 'hint'"
    """
    if source is not None:
        return _read(source)
    path = data_path(SHEET)
    return _read_once(path) if path.is_file() else Sheet({})


def _read(source):
    faults = []
    try:
        sheet = read_table(source, OWN_EXERCISES, SHEET, faults)
    except StudentError as error:
        return Sheet({}, (("", error),))
    rejected = [(cells_.get("exercise", ""), fault) for _row, cells_, fault in faults]
    found = {}
    for number, row in sheet.numbered():
        try:
            found[row["exercise"]] = _exercise(row, _Place(number, sheet.letters))
        except StudentError as fault:
            rejected.append((row["exercise"], fault))
    return Sheet(found, tuple(rejected))


_read_once = read_once(_read)


@dataclass(frozen=True)
class _Place:
    """Where a row stands in its sheet."""

    row: int
    letters: dict[str, str]

    def __str__(self):
        return f"{SHEET}, row {self.row}"

    def at(self, column):
        """A cell of the row, as a spreadsheet knows it."""
        return f"{self}, column '{column}' (cell {self.letters.get(column, '')}{self.row})"


def _exercise(row, where):
    """The Exercise of one row. Raises StudentError naming row and column."""
    which = row["exercise"]
    if not _ID.fullmatch(which) or len(which) > 40:
        raise StudentError(
            f"{where.at('exercise')}: '{which[:40]}'",
            "the lesson's two digits, a point, and small letters joined by hyphens",
            "02.bowls-for-an-order",
        )

    def cell(column, read, *more):
        return _at(where.at(column), read, row[column], *more)

    answer_kind, unit = cell("unit", cells.asked)
    fits = functools.partial(_fitting, answer_kind, unit)
    named = cell("sums", cells.sums)
    for name, formula in named:
        _at(f"{where.at('sums')}, {name}", tree, formula)
    answer = _formula(row["answer"], where.at("answer"), fits)
    cell("answer", tree)
    lines = [*named, ("", row["answer"])]
    steps = {f"step {i}": functools.partial(Line, *line) for i, line in enumerate(lines) if _is_sum(line[1])}
    return Exercise(
        id=which,
        title=cell("title", cells.text_of).replace("{", "").replace("}", ""),
        prompt=cell("question", cells.text_of),
        answer=answer,
        kind=answer_kind,
        unit=unit,
        resolution=_tolerance(cell, answer_kind, unit),
        because=row["because"],
        sane=_sane(row, cell, answer_kind, unit, where),
        limit=_LIMITS[row["limit"]],
        hint=cell("hint", cells.text_of),
        slips=tuple(_slips(row, where, fits)),
        lets={name: _sum(name, formula, f"{where.at('sums')}, {name}") for name, formula in named} | steps,
        steps=tuple("{" + name + "}" for name in steps),
        reads_names=True,
    )


def _tolerance(cell, answer_kind, unit):
    def above_nothing(typed):
        found = cells.amount(typed, answer_kind, unit, step=True)
        if not found > 0:
            raise StudentError(typed[:20], "more than 0", "5 g")
        return found

    return cell("tolerance", above_nothing)


def _at(where, read, *given):
    """What `read` makes of a cell; its refusal says where the cell is."""
    try:
        return read(*given)
    except StudentError as error:
        raise StudentError(f"{where}: {error.given}", error.needed, error.example) from None


def _is_sum(text):
    return not isinstance(tree(text), Name | Number)


def _formula(text, where, fits=lambda value: value):
    """A typed formula as a function of the givens, as an Exercise has it."""
    return lambda g: _at(where, lambda: fits(reckoned(text, g)))


def _sum(name, text, where):
    def let(g):
        if name in vars(g):
            raise StudentError(f"{where}: a given has that name already", "another name for the sum", f"{name}_2")
        return _at(where, reckoned, text, g)

    return let


def _slips(row, where, fits):
    for k in _SLIPS:
        typed, says = row[f"slip {k}"], row[f"slip {k} says"]
        at = where.at(f"slip {k}")
        if bool(typed) != bool(says):
            raise StudentError(
                f"{where}: one of 'slip {k}' and 'slip {k} says' alone",
                "a wrong path with its formula, and the sentence that helps whoever took it; or both cells empty",
                "cream forgotten = couverture / pieces",
            )
        if typed:
            name, formula = _at(at, cells.named_formula, typed, "cream forgotten = couverture / pieces")
            _at(at, tree, formula)
            yield Slip(name, _formula(formula, at, fits), _at(where.at(f"slip {k} says"), cells.text_of, says))


def _sane(row, cell, answer_kind, unit, where):
    """The lowest and the highest answer that makes sense, in `unit`."""
    low = 0.0 if answer_kind in ("quantity", "share", "money") else float("-inf")
    high = float("inf")
    if answer_kind == "money":
        high = _MOST_MONEY
    low = cell("lowest", cells.amount, answer_kind, unit) if row["lowest"] else low
    high = cell("highest", cells.amount, answer_kind, unit) if row["highest"] else high
    if low >= high:
        raise StudentError(
            f"{where}: lowest {row['lowest'] or low} and highest {row['highest'] or high}",
            "lowest below highest",
            "lowest 5 g, highest 50 g",
        )
    return low, high


def _fitting(answer_kind, unit, value):
    """What a formula came to, if it is what the cell "unit" says. Raises StudentError."""
    asked = {"share": "%", "number": "a plain number", "money": "money", "difference": "Δ" + symbol(unit)}
    wanted = asked.get(answer_kind, symbol(unit))
    if answer_kind in ("share", "number"):
        value = plain(value)
        fits = isinstance(value, float)
    elif answer_kind == "money":
        fits = isinstance(value, Money)
    else:
        fits = isinstance(value, Quantity) and value.check(Quantity(1, unit).dimensionality)
        fits = fits and is_reading(value) == (answer_kind == "reading")
        if fits and answer_kind == "difference" and not is_steps(value):
            value = value.to("delta_" + unit)
    if fits:
        return value
    raise StudentError(
        f"a formula that gives {kind(value)}, with {wanted} in the column 'unit'",
        "a formula and a unit that go together",
        "g for (couverture + cream) / pieces",
    )
