"""A copy whose exercise values, or whose word of the term, were changed by hand: that it is one, and the way back."""

from pastrylab.ground import files
from pastrylab.ground.tables import read_table
from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values, term


def class_values():
    """The Values that came with the hand-out, whatever the workbook says. Raises StudentError where they cannot be read.

    >>> class_values().id == exercise_values.survey(files.folder() / "exercise_values.csv").id
    True
    """
    return exercise_values.survey(files.folder() / "exercise_values.csv")


# What draws a student's numbers, each with what it says, whatever its spelling.
_SHEETS = {
    "exercise_values.csv": lambda path: exercise_values.survey(path).worded("").id,
    term.NAME: lambda path: term.words_in(read_table(path, term.TERM)),
}


def by_hand():
    """Whether the values in force are a student's own: a working copy's, and not those that came with the hand-out.

    >>> by_hand()
    False
    """
    return bool(_changed())


def _changed():
    """The names of the sheets that say something else than the hand-out's."""
    own = files.workbook()
    if files.course() or not own or not files.is_working_copy(own):
        return []  # where a class has its sheets in one place, one's own have no say
    return [name for name in _SHEETS if (own / "datasets" / name).is_file() and _differs(name, own)]


def _differs(name, own):
    try:
        return _SHEETS[name](own / "datasets" / name) != _SHEETS[name](files.folder() / name)
    except StudentError:
        return True  # not a table any more: the class's is not


def take_back():
    """Put the class's values into force; returns the Path under which one's own now lie, beside them. Raises StudentError
    where there are none of one's own, or the disk does not take it.

    >>> take_back()
    Traceback (most recent call last):
    ...
    pastrylab.ground.errors.StudentError: You gave exercise values that are the class's already. Needed: values changed by hand. Example: run the lesson again.
    """
    changed = _changed()
    if not changed:
        raise StudentError(
            "exercise values that are the class's already", "values changed by hand", "run the lesson again"
        )
    return [_put_back(files.workbook() / "datasets" / name) for name in changed][0]


def _put_back(path):
    kept = (path.with_name(f"{path.stem}.mine{n or ''}.csv") for n in range(1000))
    try:
        mine = next(one for one in kept if not one.exists())
        mine.write_bytes(path.read_bytes())
        draft = path.with_suffix(".tmp")
        draft.write_bytes((files.folder() / path.name).read_bytes())
        draft.replace(path)
    except (OSError, StopIteration) as error:
        raise StudentError(
            f"a file {path} that cannot be replaced ({getattr(error, 'strerror', '') or 'too many kept ones'})",
            "room on the disk, and the file closed in your spreadsheet",
            "close it and press again",
        ) from None
    return mine
