"""``pastrylab archive``: a term's folder once more without names; the one with names stays until somebody deletes it."""

import csv
import io
import json
import os
import re
import zipfile
from collections import Counter
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path, PurePosixPath

from pastrylab.desk import workbook
from pastrylab.desk.names_left import left_in, parts_in
from pastrylab.ground import files, kitchen
from pastrylab.ground.tables import decode
from pastrylab.ground.units import StudentError
from pastrylab.school import handed_in
from pastrylab.school.class_list import class_list
from pastrylab.school.handed_in import shown
from pastrylab.school.names_out import Names
from pastrylab.school.owners import owner_of

_TEXTS = (".jsonl", ".json", ".ipynb", ".csv", ".tsv", ".txt", ".html", ".htm", ".md", ".svg")
_OURS = {
    "students",
    files.FOLDER_NAME,
    "my-answers",
    "my-desk",
    "my-kitchen",
    "values",
    "lessons",
    "datasets",
    "hand-in",
    "hand-ins",
    "hand-out",
    "marks",
}
_STUDENTS = "students"
_OF_A_STUDENT = {"my-answers", "hand-in", kitchen.FOLDER_NAME}
_A_NAME = re.compile(
    r"(?:student |full |first |last |given |family |sur)?name|first|last|student|e-?mail.*|log-?in.*|user.*"
)
_TOLD = 12


@dataclass
class _Archive:
    """What is being made: names, whose each place is, the files so far, what was left out, and counts of what was done."""

    names: Names
    owners: dict
    files: dict[str, bytes] = field(default_factory=dict)
    left_out: list[str] = field(default_factory=list)
    done: Counter = field(default_factory=Counter)


def archive(folder, roll, out="", progress=lambda said: None, students=None):
    """Write a folder anew without the names of a class list; returns (whether no name is left, what to tell).

    folder: hand-ins, marks and whatever else of the term. roll: path of the class list. out: where to, beside the folder if
    "". students: the folder of the students' own folders on a class's server, whose answers go along, None for none. Numbers
    take the place of names in texts, tables, answers, names of files, and inside zips; what is no text is left out and named.
    Nothing of either folder is touched. Raises StudentError where there is nothing to read, or `out` holds files.
    """
    source = Path(folder)
    if not source.is_dir():
        raise StudentError(
            f"{folder}, which is no folder", "the folder with the term's hand-ins and marks", "autumn-26"
        )
    sources = {"": source} | ({_STUDENTS: Path(students)} if students else {})
    target = Path(out) if out else source.resolve().with_name(f"{source.resolve().name}-without-names")
    for one in sources.values():
        if target.resolve().is_relative_to(one.resolve()):
            raise StudentError(f"{target}, which lies in {one}", "a place beside it", "archive-autumn-26")
    if target.exists() and (not target.is_dir() or any(target.iterdir())):
        raise StudentError(f"{target}, where something lies already", "a new folder", "archive-autumn-26")
    made = _Archive(*_whose(Path(roll), sources))
    for path, name in _below(sources, made):
        progress(f"Archive: {len(made.files)} files")
        _take(made, name, _read(path), made.files, 0)
    left = {name: who for name, data in made.files.items() if (who := left_in(made.names, name, data))}
    try:
        for name, data in made.files.items():
            workbook.write_whole(target / name, data)
    except OSError as error:
        raise StudentError(
            f"{target}, which cannot be written to ({error.strerror or error})", "a folder you may write in", "archive"
        ) from None
    return not left, _said(made, left, sources, target, Path(roll))


def _whose(roll, sources):
    """(Names of the class list at a path, {where a hand-in lies: whose it is})."""
    people = class_list(_read(roll), roll.name)
    if not any(one.name for one in people.students):
        raise StudentError(f"{roll}, a list without names", "the list with the names to take out", "number,name")
    owners, typed = {}, {}
    for top, folder in sources.items():
        for one in handed_in.handed_in(folder)[0]:
            owner = owners[shown(str(PurePosixPath(top, one.where)))] = owner_of(one, people)[0]
            typed |= {entry["student"]: owner for entry in one.entries}
    typed = {text: who for text, who in typed.items() if not re.search(r"\d", text) and people.of(who)}
    return Names(people, _ordinary(), tuple(typed.items())), owners


def _said(made, left, sources, target, roll):
    said = [
        f"Files written to {target}: {len(made.files)}.",
        f"Names replaced by numbers: files {made.done['texts']}, lines of answers in them {made.done['lines']}, names of files "
        f"{made.done['paths']}. Cells of names emptied: {made.done['cells']}.",
    ]
    if made.done["drawn"]:
        said.append(
            f"Answers asked with the numbers of a typed name: {made.done['drawn']}. Their marks stand in the gradebook; marked "
            "again from the archive they would be wrong."
        )
    said += [f"Left out, as it cannot be searched for names: {name}" for name in made.left_out[:_TOLD]]
    more = len(made.left_out) - _TOLD
    said += [f"And {more} more left out."] if more > 0 else []
    parts = Counter(part for data in made.files.values() for part in parts_in(made.names, data))
    if parts:
        listed = ", ".join(f"{part} ({held})" for part, held in parts.most_common(_TOLD))
        said.append(f"Ordinary words that are parts of names too, left as they are, and in how many files: {listed}.")
    if left:
        said += [f"A NAME IS STILL IN {name}: of number {', '.join(who)}." for name, who in left.items()]
        said.append("Take it out by hand, or delete that file.")
    else:
        said.append("Looked through again, zips too: no name of the list is left.")
    said.append(f"With names are still {sources['']} and {roll}. Look at the archive first, then delete them by hand.")
    if _STUDENTS in sources:
        said.append(
            f"Of each student's folder in {sources[_STUDENTS]} its answers, hand-ins and own kitchen are in the archive, not "
            "its copy of the lessons. The folders stand as they were: whoever runs the server removes them with the accounts."
        )
    return said


def _ordinary():
    """The words of the lessons, the sheets and the pages, a frozenset: a name that is one of them may be no name."""
    root = workbook.shipped_root()
    files = [*root.glob("lessons/*.ipynb"), *root.glob("datasets/*.csv")]
    files += (Path(workbook.__file__).parents[1] / "page" / "templates").glob("*")
    text = " ".join(path.read_text(encoding="utf-8", errors="replace") for path in files if path.is_file())
    return frozenset(re.findall(r"[^\W\d_]+", text.casefold()))


# --- one file ---------------------------------------------------------------------------------------------


def _below(sources, made):
    """(a file, its path in the archive) of everything to take, in order; what cannot be taken is left out by name."""
    for top, source in sources.items():
        for at, folders, names in os.walk(source, followlinks=False):
            folders.sort()
            for name in sorted([*names, *(one for one in folders if (Path(at) / one).is_symlink())]):
                path = Path(at) / name
                new = PurePosixPath(top, path.relative_to(source).as_posix())
                if top and not _OF_A_STUDENT.intersection(new.parts):
                    continue
                if path.is_symlink() or not path.is_file() or not os.access(path, os.R_OK) or _large(path):
                    made.left_out.append(shown(str(new)))
                else:
                    yield path, new


def _large(path):
    return path.stat().st_size > handed_in.LARGEST_ZIP


def _take(made, path, raw, files, depth):
    """Put a file into `files` by its new name, or among what is left out."""
    ending = path.suffix.casefold()
    data = None
    if ending == ".zip" and depth < handed_in.DEEPEST:
        data = _zip(made, path, raw, depth + 1)
    elif ending in _TEXTS and len(raw) <= handed_in.LARGEST_FILE:
        data = _text(made, path, raw)
    if data is None:
        made.left_out.append(shown(str(path)))
        return
    name = _without_names(made, path)
    stem, dot, end = name.rpartition(".")
    again = (f"{stem}-{n}{dot}{end}" for n in count(2))
    files[name if name not in files else next(one for one in again if one not in files)] = data
    made.done["paths"] += PurePosixPath(name).name != path.name


def _without_names(made, path):
    parts = [part if part in _OURS else shown(made.names.out_of_a_path(part)).strip(" /\\") for part in path.parts]
    return "/".join(part or "x" for part in parts)


def _zip(made, path, raw, depth):
    files = {}
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            inside = [one for one in packed.infolist() if not one.is_dir()]
            sizes = sum(one.file_size for one in inside)
            if len(inside) > handed_in.MOST_INSIDE or sizes > handed_in.LARGEST_INSIDE:
                return None
            for one in inside:
                parts = [part for part in re.split(r"[/\\]+", one.filename) if part not in ("", ".", "..")]
                with packed.open(one) as member:
                    data = member.read(one.file_size + 1)
                _take(made, path.joinpath(*(parts or ["x"])), data, files, depth)
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, EOFError, RuntimeError):
        return None
    start = len(_without_names(made, path)) + 1
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in files.items():
            packed.writestr(name[start:], data)
    return buffer.getvalue()


def _text(made, path, raw):
    try:
        text = decode(raw, path.name) if len(raw) < 2_000_000 else raw.decode("utf-8-sig")
    except (StudentError, UnicodeDecodeError):
        return None
    names = made.names.out_of if made.names.touches(text) else str
    if path.suffix.casefold() == ".jsonl":
        new = "\n".join(_line(made, path, line, names) for line in text.split("\n"))
    elif path.suffix.casefold() in (".csv", ".tsv"):
        new = _table(made, text, names)
    elif path.name.casefold() in ("student.txt", "number.txt"):
        new = _numbers(made, path, text.strip()) + "\n"
    else:
        new = names(text)
    if new == text:
        return raw
    made.done["texts"] += 1
    mark = b"\xef\xbb\xbf" if path.suffix.casefold() == ".csv" else b""
    return mark + new.encode("utf-8", "replace")


def _line(made, path, line, names):
    """A line of answers: its student as a number, names out of all else; as it stands where there is nothing to do."""
    try:
        entry = json.loads(line)
        student = str(entry["student"])
        new = {key: names(value) if isinstance(value, str) else value for key, value in entry.items()}
    except (ValueError, KeyError, TypeError, RecursionError, AttributeError):
        return names(line)
    new["student"] = _numbers(made, path, student)
    if new == entry:
        return names(line)  # what is nested in it
    made.done["lines"] += 1
    made.done["drawn"] += (
        new["student"] != student and "did" not in entry and ".guess." not in str(entry.get("exercise"))
    )
    return json.dumps(new, ensure_ascii=False)


def _numbers(made, path, student):
    """Who a line says it is of, by number; as it stands where it is a number already."""
    roll, plain = made.names.roll, student.strip()
    if not re.search(r"[^\W\d_]", plain) or roll.of(plain):
        return student
    who = roll.whose(plain)
    if all(map(roll.of, who)):
        return " and ".join(who)
    places = (shown(str(path.parent)), shown(str(path)), shown(str(path.parent.parent)))
    return next((made.owners[one] for one in places if made.owners.get(one) and roll.of(made.owners[one])), "a name")


def _table(made, text, names):
    """A table with the cells of its name columns emptied, and names out of all others."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    separator = max(",;\t", key=first.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error:
        return names(text)
    head = next((row for row in rows if any(cell.strip() for cell in row)), [])
    heads = [" ".join(cell.casefold().replace("_", " ").split()) for cell in head]
    by_number = any(one in heads for one in ("number", "class number", "student number", "student id", "id"))
    named = {place for place, one in enumerate(heads) if by_number and _A_NAME.fullmatch(one)}
    changed = False
    for row in rows[rows.index(head) + 1 :] if head else []:
        for place, cell in enumerate(row):
            row[place] = "" if place in named else names(cell)
            made.done["cells"] += place in named and bool(cell)
            changed |= row[place] != cell
    if not changed:
        return text
    written = io.StringIO()
    csv.writer(written, delimiter=separator, lineterminator="\n").writerows(rows)
    return written.getvalue()


def _read(path):
    try:
        return Path(path).read_bytes()
    except OSError as error:
        raise StudentError(f"{path} ({error.strerror or error})", "a file that can be read", "class.csv") from None
