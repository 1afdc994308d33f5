"""What a row of exercise values may hold, and what is said where it does not: its unit, its range, whole things."""

from dataclasses import dataclass

from pastrylab.ground.currencies import CURRENCIES
from pastrylab.ground.units import Quantity, StudentError, kind_of, unit_named

_MOST_STEPS = 10_000
_WITHOUT_UNIT = ("count", "number")
# Where to look for a number like the one that is at fault.
_LIKE = {"value": ("low", "high"), "low": ("value",), "high": ("value",), "step": ()}


@dataclass(frozen=True)
class Place:
    """Where a row stands: its text in a message, its number, the letter of each column.

    >>> Place("values, row 3", 3, {"unit": "E"}).at("unit")
    "values, row 3, column 'unit' (cell E3)"
    """

    text: str
    row: int
    letters: dict

    def at(self, column):
        """The place of one cell, in words."""
        cell = f" (cell {self.letters[column]}{self.row})" if self.letters.get(column) else ""
        return f"{self.text}, column '{column}'{cell}"


def with_example(fault, cells):
    """A fault of a row's cell with a number of that row as its example, where another cell of it tells one.

    >>> fault = StudentError("row 3, column 'value': 'forty'", "a number", "12.5")
    >>> with_example(fault, {"value": "forty", "low": "30", "high": "50"}).example
    '30'
    """
    column = next((name for name in _LIKE if f"column '{name}'" in fault.given), "")
    if not column or fault.example not in ("12.5", "1"):
        return fault
    like = next(
        (cells[name] for name in _LIKE[column] if _a_number(cells.get(name, ""))), "" if column != "step" else "1"
    )
    return StudentError(fault.given, fault.needed, like) if like else fault


def _a_number(cell):
    return cell.replace(".", "", 1).replace(",", "", 1).lstrip("-").isdigit()


def check_given(given, kind, where):
    """Raise StudentError for a given (a `Given`) that its exercise cannot be worked with.

    kind: what it measures, as given_kinds has it, None where it says nothing; where: the Place of its row.

    >>> from pastrylab.school.exercise_values import Given
    >>> check_given(Given(3, "kg", 1, 5, 1), "kg", Place("row 2", 2, {}))
    """
    _check_unit(given, kind, where)
    _check_range(given, where)
    _check_count(given, kind, where)


def unit_in_csv(unit, where):
    """A unit as the package writes it: "kg" for kilograms, a currency as it is, "" for an empty cell. Raises StudentError.

    >>> unit_in_csv("grams", Place("row 2", 2, {}))
    'g'
    """
    if not unit or unit in CURRENCIES:
        return unit
    try:
        return unit_named(unit)
    except StudentError as error:
        raise StudentError(f"{where.at('unit')}: '{unit[:20]}'", error.needed, "kg") from None


def _check_unit(given, kind, where):
    """Refuse a unit of another kind than the exercise is worked out with."""
    unit = "" if kind in _WITHOUT_UNIT else kind
    if kind is None or _kind(given.unit) == _kind(unit):
        return
    found = f"'{given.unit}', {_said(given.unit)}" if given.unit else "an empty cell"
    needed = f"{_said(unit)}, in a unit such as {unit}" if unit else "an empty cell: a plain number"
    raise StudentError(f"{where.at('unit')}: {found}", needed, unit or "leave the cell empty")


def _kind(unit):
    if not unit or unit == "percent":
        return unit
    if unit in CURRENCIES:
        return "money"
    return unit.startswith("delta_"), Quantity(1, unit).dimensionality


def _said(unit):
    if unit in CURRENCIES:
        return "money"
    if unit == "percent":
        return "a share in %"
    return "a difference of temperatures" if unit.startswith("delta_") else kind_of(unit)


def _check_range(given, where):
    low, high, step = given.low, given.high, given.step
    if low > high:
        raise StudentError(
            f"{where.text}: low {low:g} above high {high:g}", "low at most high", f"low {high:g}, high {low:g}"
        )
    if not low <= given.value <= high:
        meant = _meant(given)
        if meant:
            raise StudentError(f"{where.at('value')}: {given.value:g}", meant, f"{_scaled(given):g}")
        raise StudentError(
            f"{where.at('value')}: {given.value:g}",
            f"a value from low, {low:g}, to high, {high:g}; both may be widened, and students with a name draw from them",
            f"{_slipped(given)}low {min(low, given.value):g}, high {max(high, given.value):g}",
        )
    if given.steps > _MOST_STEPS:
        raise StudentError(
            f"{where.at('step')}: {step:g}", f"at most {_MOST_STEPS} steps from low to high", "a larger step"
        )
    if abs(low + given.steps * step - high) > 1e-6 * max(1.0, abs(high)):
        raise StudentError(
            f"{where.at('step')}: {step:g} does not lead from {low:g} to {high:g}",
            "a step that divides the range",
            f"{(high - low) / max(1, given.steps):g}",
        )


_TIMES = {100: "per cents, as the column 'unit' says", 1000: "no point between thousands: here it is a decimal point"}


def _scaled(given):
    """The value times what brings it into the range, where a share or a thousand was typed; else None."""
    for times in (100,) if given.unit == "percent" else (1000,):
        if given.value and given.low <= given.value * times <= given.high:
            return given.value * times
    return None


def _meant(given):
    return _TIMES[100 if given.unit == "percent" else 1000] if _scaled(given) is not None else ""


def _slipped(given):
    """The value with its point one place off, where that lies in the range: the likelier wish beside a wider range."""
    near = [one for one in (given.value / 10, given.value * 10) if given.low <= one <= given.high]
    return f"{near[0]:g}, or " if near else ""


def _check_count(given, kind, where):
    """Refuse half a thing."""
    for column in ("value", "low", "high", "step") if kind == "count" else ():
        number = getattr(given, column)
        if not _whole(number):
            raise StudentError(f"{where.at(column)}: {number:g}", "a whole number: this is counted", f"{number:.0f}")


def _whole(number):
    return float(number).is_integer()
