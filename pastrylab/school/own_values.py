"""A copy whose exercise values were changed by hand: that it is one, and the way back to the class's values."""

from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values

_NAME = "exercise_values.csv"


def class_values():
    """The Values that came with the hand-out, whatever the workbook says. Raises StudentError where they cannot be read.

    >>> class_values().id == exercise_values.survey(files.folder() / "exercise_values.csv").id
    True
    """
    return exercise_values.survey(files.folder() / _NAME)


def by_hand():
    """Whether the values in force are a student's own: a working copy's, and not those that came with the hand-out.

    >>> by_hand()
    False
    """
    own = files.workbook()
    path = own and own / "datasets" / _NAME
    if not path or not files.is_working_copy(own) or not path.is_file():
        return False
    try:
        return exercise_values.survey().id != class_values().id
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
    if not by_hand():
        raise StudentError(
            "exercise values that are the class's already", "values changed by hand", "run the lesson again"
        )
    path = files.workbook() / "datasets" / _NAME
    kept = (path.with_name(f"exercise_values.mine{n or ''}.csv") for n in range(1000))
    try:
        mine = next(one for one in kept if not one.exists())
        mine.write_bytes(path.read_bytes())
        draft = path.with_suffix(".tmp")
        draft.write_bytes((files.folder() / _NAME).read_bytes())
        draft.replace(path)
    except (OSError, StopIteration) as error:
        raise StudentError(
            f"a file {path} that cannot be replaced ({getattr(error, 'strerror', '') or 'too many kept ones'})",
            "room on the disk, and the file closed in your spreadsheet",
            "close it and press again",
        ) from None
    return mine
