"""A student's answers on disk: one JSON object a line, one file a lesson, in lessons/my-answers of the workbook.

Lines are only ever appended. What a line says of itself (right or wrong) is never stored: verdicts are computed again
from the answer, the student and the exercise values, whose file is kept under its id beside the answers. A line with
`did` is no answer but something done, such as opening the worked solution.
"""

import json
import os
from datetime import UTC, datetime
from pathlib import Path

from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values
from pastrylab.school.named import student_named
from pastrylab.school.whose import LONGEST_NAME, folder

LONGEST_ANSWER = 2000
_OF_AN_ANSWER = ("when", "student", "exercise", "answer", "values")
OPENED_SOLUTION = "opened the worked solution"


def record(lesson, exercise, answer, student="", values=None, did=""):
    """Append one answer to the lesson's file and keep the values file it belongs to. Returns the entry (a dict).

    did: what was done, for a line that is no answer. Raises OSError where the disk is full or may not be written to.

    >>> import tempfile
    >>> from unittest import mock
    >>> with tempfile.TemporaryDirectory() as own, mock.patch.dict("os.environ", PASTRYLAB_WORKBOOK=own):
    ...     record("05", "05.highest-reading", "0.865", student=" Ana")["student"]
    'ana'
    """
    values = exercise_values.values(values)
    entry = {
        "when": datetime.now(UTC).isoformat(timespec="seconds"),
        "student": student_named(student)[:LONGEST_NAME],
        "exercise": exercise,
        "answer": str(answer)[:LONGEST_ANSWER],
        "values": values.id,
    }
    if did:
        entry["did"] = did
    _keep_values(values)
    _append(folder() / f"{lesson}.jsonl", json.dumps(entry, ensure_ascii=False))
    return entry


def keep(lesson, exercise, answer, student="", values=None, did=""):
    """As `record`; where the disk does not take it, returns a sentence that says so and what to do, else "".

    >>> import tempfile
    >>> from unittest import mock
    >>> with tempfile.TemporaryDirectory() as own, mock.patch.dict("os.environ", PASTRYLAB_WORKBOOK=own):
    ...     keep("05", "05.highest-reading", "0.865")
    ''
    """
    try:
        record(lesson, exercise, answer, student, values, did)
    except OSError as error:
        return (
            f"This was not kept: {folder()} cannot be written to ({error.strerror or error}). "
            "Make room on the disk, or move the workbook to a folder of your own, and give it again."
        )
    return ""


def read(lesson):
    """(entries, torn): the lesson's answers in the order given, and the numbers of lines that could not be read.

    Raises StudentError for a file that may not be read.

    >>> read("a lesson nobody has answered")
    ([], [])
    """
    entries, torn = _lines(lesson)
    return [entry for entry in entries if "did" not in entry], torn


def done(lesson):
    """What was done besides answering, in order: entries with `did`.

    >>> done("a lesson nobody has answered")
    []
    """
    return [entry for entry in _lines(lesson)[0] if "did" in entry]


def raw_lines(lesson):
    """The lines of the lesson's file as bytes, torn and empty ones too. Raises StudentError as `read`.

    >>> raw_lines("a lesson nobody has answered")
    []
    """
    path = folder() / f"{lesson}.jsonl"
    return lines_of(_bytes(path)) if path.is_file() else []


def lines_of(raw):
    r"""The lines of a file's bytes, without the byte order mark that an editor puts before the first.

    >>> lines_of(b"\xef\xbb\xbfone\ntwo")
    [b'one', b'two']
    """
    return raw.removeprefix(b"\xef\xbb\xbf").split(b"\n")


def _lines(lesson):
    return entries_in(raw_lines(lesson))


def entries_in(lines):
    """(entries, torn) of lines as bytes: what was answered and done, in order, and the numbers of lines not readable.

    >>> entries_in([b'{"when": "2026-10'])
    ([], [1])
    """
    entries, torn = [], []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            entry = json.loads(line.decode("utf-8"))
            kept = _OF_AN_ANSWER + (("did",) if "did" in entry else ())
            entries.append({key: str(entry[key]) for key in kept})
        except (UnicodeDecodeError, ValueError, KeyError, TypeError, RecursionError):
            torn.append(number)
    return entries, torn


def _bytes(path):
    try:
        return path.read_bytes()
    except OSError as error:
        raise StudentError(
            f"{path}, which cannot be read ({error.strerror or error})",
            "a file you may read, for your earlier answers to show",
            "a workbook in a folder of your own",
        ) from None


def given(lesson, exercise, student=""):
    """All this student's answers to an exercise, in the order given; empty ones left out.

    >>> given("05", "05.highest-reading", student="who has answered nothing yet")
    []
    """
    student = student_named(student)[:LONGEST_NAME]
    mine = [e for e in read(lesson)[0] if e["exercise"] == exercise and e["student"] == student]
    return [e for e in mine if e["answer"].strip()]


def last(lesson, exercise, student=""):
    """This student's last answer to an exercise, an entry as `record` returns it; None without any.

    >>> last("05", "05.highest-reading", student="who has answered nothing yet") is None
    True
    """
    mine = given(lesson, exercise, student)
    return mine[-1] if mine else None


def guessed(lesson, name, student=""):
    """This student's last guess, else the last made before there was a number: a guess is about the same bench for all.

    >>> guessed("05", "05.guess.nothing-yet", student="17") is None
    True
    """
    return last(lesson, name, student) or last(lesson, name)


def values_of(entry):
    """The exercise values an answer was given under: those in force if their id fits, else the file kept under it.

    Raises StudentError where that file is no longer there, or was changed.

    >>> now = exercise_values.values()
    >>> values_of({"values": now.id}) == now
    True
    """
    now = exercise_values.values()
    if entry["values"] == now.id:
        return now
    kept = folder() / "values" / f"{Path(entry['values']).name}.csv"
    if not kept.is_file():
        raise StudentError(f"an answer under the values {entry['values']}", "the values file kept with it", kept.name)
    values = exercise_values.values(kept)
    if values.id != entry["values"]:
        raise StudentError(f"a values file {kept.name} that was changed", "the file as it was kept", kept.name)
    return values


def _keep_values(values):
    kept = folder() / "values" / f"{values.id}.csv"
    if not kept.is_file():
        kept.parent.mkdir(parents=True, exist_ok=True)
        draft = kept.with_suffix(f".{os.getpid()}.tmp")
        try:
            draft.write_text(values.to_csv(), encoding="utf-8")
            draft.replace(kept)
        except OSError:
            draft.unlink(missing_ok=True)
            raise


def _append(path, line):
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("ab+") as file:
        # A line torn by a crash must not swallow the next one.
        torn = file.tell() > 0 and _last_byte(file) != b"\n"
        file.write((b"\n" if torn else b"") + line.encode("utf-8") + b"\n")
        file.flush()
        os.fsync(file.fileno())


def _last_byte(file):
    file.seek(-1, os.SEEK_END)
    return file.read(1)
