"""The exercise values in force: what exercise_values.csv may hold, row by row, and the id an answer carries."""

import csv
import functools
import hashlib
import io
from dataclasses import dataclass, field, replace
from pathlib import Path

from pastrylab.ground.files import data_path, folder, read_once
from pastrylab.ground.tables import Column, Table, read_table
from pastrylab.ground.units import StudentError
from pastrylab.school import term, whose
from pastrylab.school.given_kinds import KINDS
from pastrylab.school.value_rows import Place, check_given, unit_in_csv, with_example

EXERCISE_VALUES = Table(
    columns=(
        Column("lesson"),
        Column("exercise"),
        Column("given"),
        Column("value", "number"),
        Column("unit", required=False),
        Column("low", "number"),
        Column("high", "number"),
        Column("step", "number", above=0),
        Column("word", required=False),  # in a kept file: that of the term it was drawn with
    ),
    key=("exercise", "given"),
)


@dataclass(frozen=True)
class Given:
    """One value of an exercise: the class value, its unit, and the range and step individual values are drawn from.

    >>> Given(value=3, unit="kg", low=1.5, high=6, step=0.5).steps
    9
    """

    value: float
    unit: str
    low: float
    high: float
    step: float

    @functools.cached_property
    def steps(self):
        """How many steps lie between low and high."""
        return round((self.high - self.low) / self.step)


@dataclass(frozen=True)
class Values:
    """Exercise values in force, with the id that every recorded answer names.

    faults: (exercise, StudentError) for each row that cannot be used; such a row stops its own exercise, no other. word:
    that of the term, which goes into every draw; "" for none.

    >>> values().of("02.seed-for-a-bowl")["batch"].unit
    'kg'
    """

    givens: dict[tuple[str, str], Given]
    lessons: dict[str, str]
    name: str = "exercise_values.csv"
    faults: tuple[tuple[str, StudentError], ...] = ()
    word: str = ""
    id: str = field(init=False)

    def __post_init__(self):
        rows = [
            f"{e}|{g}|{v.value!r}|{v.unit}|{v.low!r}|{v.high!r}|{v.step!r}" for (e, g), v in sorted(self.givens.items())
        ]
        rows += [f"word|{self.word}"] * bool(self.word)
        object.__setattr__(self, "id", hashlib.sha256("\n".join(rows).encode()).hexdigest()[:8])

    def of(self, exercise):
        """Given by name for one exercise, in the order of the file. Raises StudentError where a row of it is at fault."""
        for owner, fault in self.faults:
            if owner == exercise:
                raise fault
        return dict(self._by_exercise.get(exercise, {}))

    @functools.cached_property
    def _by_exercise(self):
        found = {}
        for (owner, name), given in self.givens.items():
            found.setdefault(owner, {})[name] = given
        return found

    def moved(self, where):
        """A copy with other class values: where is "low", "high", or a function (exercise, name, given) -> value."""
        pick = where if callable(where) else lambda _e, _n, given: getattr(given, where)
        moved = {(e, n): replace(given, value=pick(e, n, given)) for (e, n), given in self.givens.items()}
        return replace(self, givens=moved)

    def worded(self, word):
        """A copy that is drawn with another word."""
        return replace(self, word=word)

    def to_csv(self):
        """The values as CSV text, as exercise_values.csv holds them."""
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        word = [self.word] * bool(self.word)
        writer.writerow([c.name for c in EXERCISE_VALUES.columns][: 8 + len(word)])
        for (exercise, name), g in self.givens.items():
            numbers = [f"{x:.10g}" for x in (g.value, g.low, g.high, g.step)]
            writer.writerow([self.lessons[exercise], exercise, name, numbers[0], g.unit, *numbers[1:], *word])
        return out.getvalue()


def values(explicit=None):
    """The exercise values in force: `explicit` (Values, path, CSV text, bytes), else the workbook's file, else the package's.

    Those in force carry the word that term.csv has for the section typed on this machine.

    Raises StudentError naming file, row, column and remedy. In the file in force a row at fault stops its own exercise
    only (Values.faults); in an explicit one it is raised.

    >>> rows = "lesson,exercise,given,value,unit,low,high,step\\n02,02.mine,batch,2,kg,1,4,0.5\\n"
    >>> values(rows).of("02.mine")["batch"].value
    2.0
    """
    found = survey(explicit)
    if found.faults and explicit is not None and not isinstance(explicit, Values):
        raise found.faults[0][1]
    return found


def survey(explicit=None):
    """As `values`, with the faults of every row in Values.faults; raises StudentError only for the file as a whole.

    >>> rows = "lesson,exercise,given,value,unit,low,high,step\\n02,02.mine,batch,lots,kg,1,4,0.5\\n"
    >>> [exercise for exercise, fault in survey(rows).faults]
    ['02.mine']
    """
    if isinstance(explicit, Values):
        return explicit
    if explicit is None:
        path = data_path("exercise_values.csv")
        return _values_at(path, term.words().of(whose.section()))
    if isinstance(explicit, str) and "\n" not in explicit:
        explicit = Path(explicit)
    return _values_from(explicit, getattr(explicit, "name", "exercise_values.csv"))


def for_section(section, explicit=None):
    """The exercise values that a section's students draw from: as `values`, with the word that term.csv has for it.

    An explicit file that was kept with a word stays with it. Raises StudentError as `values`.

    >>> for_section("A").id == for_section(" a ").id
    True
    """
    found = values(explicit)
    return found if explicit is not None and found.word else found.worded(term.words().of(section))


def of_each_section(explicit=None):
    """[Values] as every section of the class draws from them, each once; a file that was kept with a word is itself alone.

    >>> len(of_each_section()) == len(term.words().given_out)
    True
    """
    found = survey(explicit)
    if explicit is not None and found.word:
        return [found]
    return [found.worded(word) for word in term.words().given_out]


@read_once
def _values_at(path, word):
    return _values_from(path, "exercise_values.csv").worded(word)


def _values_from(source, name):
    rejected = []
    sheet = read_table(source, EXERCISE_VALUES, name, rejected)
    faults = [(cells.get("exercise", ""), with_example(fault, cells)) for _number, cells, fault in rejected]
    givens, lessons = {}, {}
    for number, row in sheet.numbered():
        key = row["exercise"], row["given"]
        where = Place(f"{name}, row {number}, exercise {key[0]}, given '{key[1]}'", number, sheet.letters)
        try:
            given = Given(row["value"], unit_in_csv(row["unit"], where), row["low"], row["high"], row["step"])
            kind = KINDS.get(key[0], {}).get(key[1])
            check_given(given, kind, where)
        except StudentError as fault:
            faults.append((key[0], fault))
            continue
        givens[key] = given
        lessons[key[0]] = row["lesson"]
    words = sorted({word for one in sheet["word"] if (word := term.word_named(one, f"{name}, column 'word'"))})
    if len(words) > 1:
        raise StudentError(f"{name}, column 'word': {words[0]} and {words[1]}", "one word for all rows", words[0])
    return Values(givens, lessons, name, tuple(faults), *words)


def shipped_row(exercise, given):
    """The row of a given as it came with the package, as CSV text; "" where it came without.

    >>> shipped_row("08.as-purchased", "nothing")
    ''
    """
    values = _values_at(folder() / "exercise_values.csv", "")
    one = {key: found for key, found in values.givens.items() if key == (exercise, given)}
    return replace(values, givens=one).to_csv().splitlines()[1] if one else ""
