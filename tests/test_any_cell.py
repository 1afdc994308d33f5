"""Whatever one cell of any sheet holds, `check` answers in sentences; whatever lies from low to high serves.

Seeds are fixed: each run tries the same cells.
"""

import csv
import random
import shutil

import pytest
from depth import depth

from pastrylab.course import catalogue
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import engine, exercise_values, sheets
from pastrylab.school.draws import draw

PACKAGED = files.folder()
CELLS = (
    *(
        "",
        "0",
        "-3",
        "forty",
        "65 %",
        "1.000",
        "1,000",
        "3. Apr",
        "1e12",
        "1e-12",
        "NaN",
        "inf",
        "25.5",
        "100",
        "99999",
    ),
    *(
        "=A1",
        "#REF!",
        "TRUE",
        "\u00a03\u00a0",
        "'3",
        "3 kg",
        "$3",
        "?",
        "-",
        '"',
        'a"b',
        "a;b",
        "<b>",
        "{batch}",
        "\u2028",
    ),
    *("x" * 3000, "dark", "milk", "butter", "kg", "EUR", "3/4", "../../x", "nul\x01l", "line\nbreak", "5 to 7"),
)
TABLES = sorted(name for name in sheets.names() if (PACKAGED / name).is_file())


def damaged(chance):
    """(sheet, row, column, text): any cell below the first row, exercise_values.csv as often as all the others."""
    name = "exercise_values.csv" if chance.random() < 0.5 else chance.choice(TABLES)
    with (PACKAGED / name).open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    row = chance.randrange(1, len(rows)) if len(rows) > 1 else 0
    return name, rows, row, chance.randrange(len(rows[row])), chance.choice(CELLS)


def put(path, rows, row, column, text):
    changed = [list(cells) for cells in rows]
    changed[row][column] = text
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(changed)


def test_one_damaged_cell_never_breaks_check_or_an_exercise(own_workbook):
    shutil.copytree(PACKAGED, own_workbook / "datasets")
    chance = random.Random(14)
    for _ in range(depth(8, 80)):
        name, rows, row, column, text = damaged(chance)
        put(own_workbook / "datasets" / name, rows, row, column, text)
        where = f"{name}, row {row + 1}, column {rows[0][column]}: {text[:40]!r}"
        try:
            found = catalogue.check(students=1)
        except StudentError as error:  # the file of values as a whole
            found = [str(error)]
        except Exception as error:
            raise AssertionError(where) from error
        assert all(isinstance(said, str) and "nan" not in said.split() for said in found), where
        blanked = _blanked(where)
        if name == "exercise_values.csv":
            assert blanked <= {rows[row][1]}, where
        shutil.copy(PACKAGED / name, own_workbook / "datasets" / name)


def _blanked(where):
    """The exercises that cannot be set; all others show prompt and solution."""
    found = set()
    with files.one_look():
        for e in catalogue.EXERCISES.values():
            try:
                worked = engine.case(e)
                assert worked.prompt and worked.solution, where
            except StudentError:
                found.add(e.id)
    return found


@pytest.mark.parametrize("seed", range(depth(2, 40)))
def test_any_value_from_low_to_high_is_accepted(seed):
    """A class value on a step of its range, and a range narrowed to steps of it round that value."""
    shipped, chance = exercise_values.values(), random.Random(seed)

    def somewhere(_exercise, _name, given):
        return float(f"{given.low + chance.randint(0, given.steps) * given.step:.10g}")

    moved = shipped.moved(somewhere)
    rows = [line.split(",") for line in moved.to_csv().splitlines()]
    for row in rows[1:]:
        value, low, high, step = (float(row[at]) for at in (3, 5, 6, 7))
        below, above = (round((value - low) / step), round((high - value) / step))
        row[5] = f"{value - chance.randint(0, below) * step:.10g}"
        row[6] = f"{value + chance.randint(0, above) * step:.10g}"
    values = exercise_values.survey("\n".join(",".join(row) for row in rows) + "\n")
    assert values.faults == ()
    with files.one_look():
        for e in catalogue.EXERCISES.values():
            for student in ("", "17"):
                worked = engine.case(e, student, values)
                assert worked.prompt and worked.solution and worked.wrong is not None
                assert not e.how.absurd(worked.expected), (e.id, student)


def test_what_is_counted_stays_whole_for_whoever_draws():
    """Pods, pieces, boxes, moulds, days: by given_kinds; each of two hundred names draws a whole number."""
    values = exercise_values.values()
    counted = [
        (e, n, given) for (e, n), given in values.givens.items() if exercise_values.KINDS.get(e, {}).get(n) == "count"
    ]
    assert len(counted) > 10
    for e, n, given in counted:
        for name in range(200):
            number = draw(e, n, given, f"{name}")
            assert number == int(number) and given.low <= number <= given.high, (e, n, name)
