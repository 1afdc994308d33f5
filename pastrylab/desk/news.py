"""What a newer hand-out changed in a student's copy, in one line."""

from __future__ import annotations

from pathlib import Path

from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values

VALUES = "datasets/exercise_values.csv"
WORD = "datasets/term.csv"
_NAMED = 5  # exercises by their ids


def numbers(folder: Path):
    """The exercise values that lie in a working copy, as Values; None where there are none or they cannot be read."""
    try:
        return exercise_values.survey((folder / VALUES).read_bytes())
    except (OSError, StudentError):
        return None


def said(changes, before, after) -> list[str]:
    """What to say of an update: one line on all of it, and one more for each newer file laid beside a changed one.

    changes: those of workbook.update. before, after: Values of the copy, None for none that can be read.
    """
    beside = [str(change) for change in changes if change.action == "beside"]
    if len(changes) == 1 and changes[0].action not in ("added", "updated"):
        return [str(changes[0])]
    return [_in_one_line(changes, before, after), *beside] if changes else []


def _in_one_line(changes, before, after) -> str:
    parts = [_moved(before, after)] if before and after else []
    if any(change.path == WORD and change.action == "updated" for change in changes):
        parts.append("another word for the term, so other numbers for every class number")
    for action, words in (("updated", "replaced"), ("added", "new"), ("restored", "put back")):
        names = [change.path for change in changes if change.action == action]
        lessons = sum(name.endswith(".ipynb") for name in names)
        others = sum(not name.endswith(".ipynb") and name not in (VALUES, WORD) for name in names)
        counted = [_counted(lessons, "lesson")] * bool(lessons) + [_counted(others, "other file")] * bool(others)
        parts += [f"{' and '.join(counted)} {words}"] * bool(counted)
    for actions, words in ((("kept", "beside"), "kept as you changed it"), (("left",), "no longer part of it")):
        names = [change.path for change in changes if change.action in actions]
        parts += [f"{words}: {', '.join(names)}"] if names else []
    return (
        f"New in your workbook: {'; '.join(filter(None, parts)) or 'the same numbers'}. Your answers are as they were."
    )


def _moved(before, after) -> str:
    both = before.givens.keys() & after.givens.keys()
    moved = sorted({key[0] for key in both if before.givens[key] != after.givens[key]})
    if not moved:
        return ""
    more = f" and {len(moved) - _NAMED} more" if len(moved) > _NAMED else ""
    return f"other numbers in {_counted(len(moved), 'exercise')} ({', '.join(moved[:_NAMED])}{more})"


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
