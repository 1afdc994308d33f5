"""``pastrylab check``: every sheet and every exercise, what is to mend in the words of a spreadsheet, and what changed."""

import difflib
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from pastrylab.course import catalogue
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values, sheets
from pastrylab.school.class_list import class_list
from pastrylab.school.moved import moved
from pastrylab.school.own_values import class_values

TRIED = 200  # students; the tests try a thousand


@dataclass(frozen=True)
class Checked:
    """What a check found: faults to mend, notes that harm nobody, and what changed since the values last given out."""

    faults: tuple[str, ...]
    notes: tuple[str, ...]
    changes: tuple[str, ...]
    sound: str

    @property
    def said(self):
        """All of it as sentences, the faults first; who has none is told so."""
        return [*(self.faults or [self.sound]), *self.notes, *self.changes]


def check_all(values=None, students=TRIED, roll=None, since=None, hand_outs="hand-out", progress=None):
    """Read every sheet and try every exercise: a Checked.

    values: path of exercise values to look at instead of those in force; students: drawn ones to try each exercise on;
    roll: path of a class list to read too; since: path of the values to compare with, None for the last that were handed
    out into the folder hand_outs, else the packaged. progress: called with a sentence now and then. Raises StudentError for a file named here that
    cannot be read; a sheet in force that cannot is a fault among the others.
    """
    with files.one_look():
        notes = [] if values else [*_not_read(), *_not_there()]
        faults = _faults_of_list(Path(roll)) if roll else []
        found = None
        try:
            found = exercise_values.survey(values)
        except StudentError as fault:
            if values:
                raise
            faults += [str(fault), *sheets.problems()]
        if found:
            faults += catalogue.check(found if values else None, students, progress)
        changes = _changes(found, since, Path(hand_outs)) if found else []
    what = "The exercise values are" if values else "The exercise values and the other sheets are"
    sound = f"{what} sound: every exercise can be asked and answered with them."
    return Checked(tuple(faults), tuple(notes), tuple(changes), sound)


def _faults_of_list(roll):
    """Sentences on a class list: the file as a whole, and each row of it that counts for nobody."""
    try:
        return list(class_list(roll.read_bytes(), roll.name).left_out)
    except StudentError as fault:
        return [str(fault)]
    except OSError as error:
        needed = "a class list, a CSV file that is not open elsewhere"
        raise StudentError(f"{roll} ({error.strerror or error})", needed, "class.csv") from None


def _sheets_of(folder):
    """Names of the CSVs in a folder datasets; those of logs, in folders of their own, are named in a sheet."""
    found = [*folder.glob("*.csv"), *folder.glob("reference/*.csv")]
    return sorted(path.relative_to(folder).as_posix() for path in found)


def _not_read():
    """A note for each CSV beside the sheets that no lesson reads: a name was mistyped, or a copy kept."""
    own = files.workbook()
    for name in _sheets_of(own / "datasets") if own else ():
        if name not in sheets.names():
            near = difflib.get_close_matches(name, sheets.names(), 1, cutoff=0.75)
            meant = f" If it is meant to be {near[0]}, give it that name." if near else ""
            yield f"{name} in the folder datasets is read by no lesson.{meant}"


def _not_there():
    """A note for each sheet that is missing from the workbook: the one that came with the package is in force."""
    own, packed = files.workbook(), files.folder()
    if own and (own / "datasets").resolve() != packed.resolve():
        for name in _sheets_of(packed):
            if not (own / "datasets" / name).exists():
                yield f"{name} is not in the folder datasets: the one that came with the package is in force."


def _changes(values, since, hand_outs):
    before, called = _before(since, hand_outs)
    if before is None:
        return []
    told = moved(values, before)
    return [f"Since {called}:", *told] if told else [f"No exercise has moved since {called}."]


def _before(since, hand_outs):
    """(Values to compare with, what to call them); (None, "") where there are none."""
    if since:
        return exercise_values.survey(Path(since)), f"the values of {since}"
    kept = [path for path in (hand_outs / "values").glob("*.csv") if path.is_file()]
    newest = max(kept, key=lambda path: path.stat().st_mtime, default=None)
    try:
        if newest:
            day = datetime.fromtimestamp(newest.stat().st_mtime).strftime("%Y-%m-%d %H:%M")
            return exercise_values.survey(newest), f"the hand-out of {day}, {newest}"
        own = files.workbook()
        if own and (own / "datasets").resolve() != files.folder().resolve():
            return class_values(), "the values that came with the package"
    except StudentError:
        pass  # nothing to compare with
    return None, ""
