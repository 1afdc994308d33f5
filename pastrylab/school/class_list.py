"""Who is in the class: a list as any gradebook exports it, and a class number however it is written."""

import re
from collections import Counter
from dataclasses import dataclass, replace

from pastrylab.ground.tables import decode, rows_of
from pastrylab.ground.units import StudentError, read_text
from pastrylab.school.named import members, number_named, parts, section_named, student_named

# What columns are called, the likeliest first; all others of the file are left alone.
_COLUMNS = {
    "number": ("number", "class number", "student number", "student id", "id number", "student no", "no", "nr", "id"),
    "name": ("name", "student name", "full name", "student"),
    "first": ("first name", "given name", "first"),
    "last": ("last name", "surname", "family name", "last"),
    "section": ("section", "course section", "group", "class"),
    "extra days": ("extra days",),
    "excused": ("excused", "excused lessons"),
    "larger print": ("larger print", "large print"),
    "works with": ("works with",),
}
_YES, _NO = ("yes", "y", "x", "1", "true"), ("", "no", "n", "0", "false", "-")
_MOST_EXTRA = 366
_TITLES = 10  # rows that may stand above the head: a course, a date
_SHORTENED = re.compile(r"\d(?:[.,]\d+)?e\+\d+")


@dataclass(frozen=True)
class Student:
    """One of a class: number as it counts, name, section ("" where the list has none), days allowed beyond each due, the
    number as the list writes it, the lessons excused from, and whether sheets are to be printed larger.

    >>> Student("17", "an invented name", "A").extra_days
    0
    """

    number: str
    name: str = ""
    section: str = ""
    extra_days: int = 0
    written: str = ""
    excused: tuple[str, ...] = ()
    larger_print: bool = False


@dataclass(frozen=True)
class ClassList:
    """The students of a class in the order of their list. left_out: a sentence for each row without a number. together: the
    numbers of each group that works at one screen, as the list says.

    >>> ClassList((Student("17"),)).of("017").number
    '17'
    """

    students: tuple[Student, ...]
    left_out: tuple[str, ...] = ()
    together: tuple[tuple[str, ...], ...] = ()

    def __post_init__(self):
        object.__setattr__(self, "_by_number", {one.number: one for one in self.students})
        names = Counter(student_named(one.name) for one in self.students)
        own = {student_named(one.name): one.number for one in self.students if names[student_named(one.name)] == 1}
        object.__setattr__(self, "_by_name", own)
        object.__setattr__(self, "_whose", {})

    def whose(self, student):
        """The numbers of a line's student as it was typed: a number, a name of the list, or several of them. A tuple of
        numbers as they count, of one that the list does not have too; () for nobody.

        >>> ClassList((Student("17", "Ana Doe"), Student("b-3"))).whose("ana doe and B-3")
        ('17', 'b-3')
        """
        found = self._whose.get(student)
        if found is None:
            found = self._whose[student] = self._read(student)
        return found

    def _read(self, student):
        one = self._number(student)
        if not one or self.of(one):
            return (one,) * bool(one)
        several = tuple(dict.fromkeys(self._number(part) for part in parts(number_named(student))))
        return several if any(map(self.of, several)) or members(one) == several else (one,)

    def _number(self, student):
        number = number_named(student)
        return number if self.of(number) else self.number_of(number) or number

    def of(self, number):
        """The Student of a number however it is written, or None."""
        return self._by_number.get(number_named(number))

    def group(self, numbers):
        """Several of the list as the one Student they are at one screen; excused from what all of them are.

        >>> ClassList((Student("17", "Ana Doe", "A"), Student("23", section="A"))).group(("17", "23"))
        Student(number='17 and 23', name='Ana Doe', section='A', extra_days=0, written='', excused=(), larger_print=False)
        """
        people = [self.of(one) for one in numbers]
        return Student(
            number_named(" and ".join(one.number for one in people)),
            ", ".join(one.name for one in people if one.name),
            people[0].section,
            excused=tuple(one for one in people[0].excused if all(one in other.excused for other in people)),
            larger_print=any(one.larger_print for one in people),
        )

    def number_of(self, name):
        """The number beside a name that stands in the list once, or ""."""
        return self._by_name.get(student_named(name), "") if student_named(name) else ""


def class_list(source, name="the class list"):
    r"""The ClassList of a CSV (bytes or text) with a column for the number; name, section, extra days, excused lessons,
    larger print and works with (who is at the same screen) where it has them.

    Columns unknown here are left alone. Raises StudentError for a file without numbers or with one twice.

    >>> class_list("Student ID,Last Name,First Name,Section\n017,Doe,Ana,A\n").students[0]
    Student(number='17', name='Ana Doe', section='A', extra_days=0, written='017', excused=(), larger_print=False)
    """
    text = source if isinstance(source, str) else decode(source, name)
    (first, heads), *rows = rows_of(_from_head(text, name), [one for names in _COLUMNS.values() for one in names], name)
    at = _places(first, heads, name)
    students, left_out, seen, sections, partners = [], [], {}, {}, {}
    for row, cells in rows:
        cell = {what: cells[place].strip() if place < len(cells) else "" for what, place in at.items()}
        number = number_named(cell["number"])
        if not number:
            left_out.append(f"{name}, row {row}: no number, so nobody of the class.")
            continue
        _is_one(number, cell["number"], f"{name}, row {row}")
        if number in seen:
            raise StudentError(
                f"{name}, row {row}: the number {number} stands in row {seen[number]} already",
                "each number once; 017 and 17 are one. Do your sections count from 1 each? Put the section before the number",
                "A-17 and B-17, in the list and typed by the students",
            )
        seen[number] = row
        cell["section"] = " ".join(cell.get("section", "").split())
        cell["section"] = sections.setdefault(section_named(cell["section"]), cell["section"])  # one spelling of each
        students.append(_student(number, cell, f"{name}, row {row}, column"))
        if cell.get("works with", "").casefold() not in (*_NO, "none", "nobody", "alone"):
            partners[number] = f"{name}, row {row}, column 'works with'", cell["works with"]
    if not students:
        raise StudentError(f"{name}, without a student", "a row for each", "17,a name,A")
    alone = ClassList(tuple(students), tuple(left_out))
    return replace(alone, together=_together(alone, partners))


def _student(number, cell, where):
    return Student(
        number,
        cell.get("name") or " ".join(filter(None, (cell.get("first"), cell.get("last")))),
        cell["section"],
        _days(cell.get("extra days", ""), f"{where} 'extra days'"),
        cell["number"],
        _lessons(cell.get("excused", ""), f"{where} 'excused'"),
        _yes(cell.get("larger print", ""), f"{where} 'larger print'"),
    )


def _together(alone, partners):
    """The groups of a list, each once: partners is {number: (where it stands, who is named there)}."""
    found = {}
    for number, (where, cell) in partners.items():
        named = alone.whose(cell)
        if not all(map(alone.of, named)):
            named = alone.whose(re.sub(r"(?<=\w)\s*[,/]\s*(?=\w)", "; ", cell))  # 18/19, or 18,19 among semicolons
        strange = next((one for one in named if not alone.of(one)), number if named in ((), (number,)) else None)
        if strange:
            raise StudentError(f"{where}: {cell[:40]}", "somebody else of the list, by number, and between two", "23")
        group = tuple(members(number_named(" and ".join({number, *named}))))
        sections = {section_named(alone.of(one).section) for one in group}
        if len(sections) > 1:
            raise StudentError(
                f"{where}: {cell[:40]}, who is in another section, whose numbers are drawn apart",
                "somebody of the same section, or nothing",
                "23",
            )
        found[group] = True
    return tuple(found)


def _plain(head):
    return " ".join(head.casefold().replace("_", " ").split())


def _is_one(number, written, where):
    """Refuse what is no one number: a long one that lost its digits, several."""
    if _SHORTENED.fullmatch(written.casefold()):
        raise StudentError(
            f"{where}: {written[:20]}, a long number that the spreadsheet has shortened",
            "all its digits: make the column one of text or of whole numbers, type them again, save once more",
            "20261234567",
        )
    if len(members(number)) > 1:
        raise StudentError(f"{where}: several numbers, {number[:40]}", "a row for each student", "17")


def _from_head(text, name):
    """A list without the rows above its head, which stay as blank ones: rows are counted with them."""
    if not text.strip(" \t\r\n;,\ufeff"):
        raise StudentError(
            f"{name}, which is empty", "a CSV file with a head and a row for each student", "number,name"
        )
    lines = re.split("\r\n|\r|\n", text)
    for at, line in enumerate(lines[:_TITLES]):
        if any(_plain(cell.strip(' "\ufeff')) in _COLUMNS["number"] for cell in re.split("[,;\t]", line)):
            titled = at and not lines[0].casefold().lstrip("\ufeff").startswith("sep=")
            return "\n" * at + "\n".join(lines[at:]) if titled else text
    return text


def _places(first, heads, name):
    """{what: which column it is}. Raises StudentError where the head, in the row `first`, has no number."""
    plain = [_plain(head) for head in heads]
    found = {}
    for what, names in _COLUMNS.items():
        place = next((plain.index(one) for one in names if one in plain), None)
        if place is not None:
            found[what] = place
    if "number" not in found:
        raise StudentError(
            f"{name}, row {first}: no column with the numbers of the class, among {', '.join(heads)[:200]}",
            "a column called number, and name and section if you like",
            "number,name,section",
        )
    return found


def _lessons(cell, where):
    """The lessons of a cell such as "2; 05" or "lesson 02"."""
    found = [one.casefold().removeprefix("lesson").removeprefix("s").strip() for one in re.split(r"[,;/]| and ", cell)]
    found = [one.zfill(2) for one in found if one]  # a spreadsheet drops the nought of 02
    wrong = [one for one in found if not re.fullmatch(r"\d\d", one)]
    if wrong:
        raise StudentError(f"{where}: {cell[:30]}", "numbers of lessons, a semicolon between two", "02; 05")
    return tuple(dict.fromkeys(found))


def _yes(cell, where):
    if cell.casefold() not in _YES + _NO:
        raise StudentError(f"{where}: {cell[:20]}", "yes, or nothing", "yes")
    return cell.casefold() in _YES


def _days(cell, where):
    if not cell:
        return 0
    try:
        typed = read_text(cell)
    except StudentError as error:
        raise StudentError(f"{where}: {error.given}", "a whole number of days", "3") from None
    if typed.unit or not 0 <= typed.number <= _MOST_EXTRA or typed.number != int(typed.number):
        raise StudentError(f"{where}: {cell[:20]}", f"a whole number of days from 0 to {_MOST_EXTRA}", "3")
    return int(typed.number)
