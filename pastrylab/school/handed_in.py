"""What a class handed in: a folder of folders and zips, in whatever way it was downloaded, becomes hand-ins.

Nothing is unpacked to the disk and no link is followed: a zip is read in memory, within limits. Names decide nothing but
which files belong together; what counts is in the lines.
"""

import io
import os
import re
import stat
import zipfile
import zlib
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values
from pastrylab.school.answers import LONGEST_ANSWER, entries_in, lines_of

LARGEST_FILE = 5_000_000  # bytes, unpacked; a year of answers is a tenth of it
LARGEST_ZIP = 500_000_000  # as it lies there: the whole class in one download
LARGEST_INSIDE = 200_000_000  # unpacked out of one download that lies in the folder
MOST_INSIDE = 50_000  # files in one zip
DEEPEST = 4  # zips within zips
_ANSWERS = re.compile(r".*\.jsonl(?: ?\(\d+\))?(?:\.txt)?", re.IGNORECASE)
_OF_A_LESSON = re.compile(r"\d\d(?: ?\(\d+\)| ?- ?copy)?\.jsonl.*", re.IGNORECASE)
_VALUES = re.compile(r"[0-9a-f]{8}\.csv")
_CLAIM = re.compile(rb'"(?:right|correct|verdict|status|slip|points?|mark|grade|score)"\s*:')
_LITTER = ("._", "~$", ".~")  # what a Mac and an office program lay beside a file
_OTHERS_UNDER_THE_NAME = {b"Rar!": "a RAR", b"7z\xbc\xaf": "a 7z", b"\x1f\x8b": "a gz"}
_OTHER_ARCHIVES = (".7z", ".rar", ".tar", ".gz", ".tgz", ".bz2", ".xz")


@dataclass
class HandIn:
    """One student's answers as they lay in one place: where (a path below the folder), a list a file of every line that
    could be read, in order, (file, line) of those that could not, the number kept beside them, the values files that came
    with them, and (file, line) of those that claim a verdict, as no lesson writes it.

    >>> HandIn("17").entries
    []
    """

    where: str
    files: list[list[dict]] = field(default_factory=list)
    torn: list[tuple[str, int]] = field(default_factory=list)
    named: str = ""
    values: dict[str, bytes] = field(default_factory=dict)
    claims: list[tuple[str, int]] = field(default_factory=list)

    @property
    def entries(self):
        """Every line of every file."""
        return [entry for file in self.files for entry in file]


class _Found:
    """What has been found so far."""

    def __init__(self, progress):
        self.places, self.names, self.values, self.troubles = {}, {}, {}, []
        self.progress, self.budget, self.texts = progress, 0, {}

    def trouble(self, path, says):
        self.troubles.append((shown(str(path)), says))

    def take(self, path, read):
        """One file: path is a PurePosixPath below the folder, read a function that returns its bytes or None."""
        name = path.name
        if name.startswith(_LITTER) or "__MACOSX" in path.parts:
            return
        if _ANSWERS.fullmatch(name):
            self._answers(path, read())
        elif name.lower() in ("number.txt", "student.txt") and path.parent not in self.names:
            self.names[path.parent] = (read() or b"")[:400].decode("utf-8", "replace").lstrip("\ufeff").strip()
        elif path.parent.name == "values" and _VALUES.fullmatch(name):
            self.values.setdefault(path.parent.parent, {})[name[:8]] = read() or b""
        elif name.lower().endswith(_OTHER_ARCHIVES):
            self.trouble(path, "an archive that is not read here: unpack it, or ask for a zip")

    def _answers(self, path, raw):
        if raw is None:
            return
        # Files by the program's own names lie beside each other; one of another name is somebody's download.
        own = _OF_A_LESSON.fullmatch(path.name)
        place = path.parent if own else path
        hand_in = self.places.setdefault(place, HandIn(shown(str(place))))
        plain = _in_utf_8(raw)
        lines = lines_of(plain)
        entries, torn = entries_in(lines)
        hand_in.files.append([self._short(entry) for entry in entries])
        hand_in.torn += [(shown(path.name), line) for line in torn]
        suspect = enumerate(lines, start=1) if _CLAIM.search(plain) else ()
        claims = [number for number, line in suspect if _CLAIM.search(line)]
        hand_in.claims += [(shown(path.name), number) for number in claims]
        self.progress(len(self.places))

    def _short(self, entry):
        """What stands in thousands of lines is kept once, and no answer is longer than a page would take it."""
        entry["answer"] = entry["answer"][:LONGEST_ANSWER]
        for key, text in entry.items():
            if key != "when":
                entry[key] = self.texts.setdefault(text, text)
        return entry

    def hand_ins(self):
        for place, hand_in in self.places.items():
            for beside in (place, place.parent):
                hand_in.named = hand_in.named or self.names.get(beside, "")
                hand_in.values = hand_in.values or self.values.get(beside, {})
        return [self.places[place] for place in sorted(self.places)]


def _in_utf_8(raw):
    """A file that an editor saved again in UTF-16, as it was."""
    if not raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw
    return raw.decode("utf-16", "replace").encode("utf-8", "replace")


def shown(text):
    """A name as it can be written anywhere: no half of a letter, no control sign, not longer than 200.

    >>> shown("a\\udcff\\n.zip")
    'a? .zip'
    """
    if text.isprintable():
        return text[:200]
    plain = text.encode("utf-8", "replace").decode("utf-8")
    return "".join(sign if sign.isprintable() else " " for sign in plain)[:200]


def handed_in(folder, progress=lambda count: None):
    """([HandIn], [(where, what was wrong)]) of everything below a folder, or in a zip. progress: called with how many were found.

    Links are not followed, zips with a password or too much in them are named and left. Raises StudentError where there
    is no such folder.

    >>> handed_in("no-such-folder")
    Traceback (most recent call last):
    ...
    pastrylab.ground.errors.StudentError: You gave no-such-folder, which is no folder. Needed: the folder with what was handed in. Example: hand-ins.
    """
    top = Path(folder)
    if top.is_file() and top.suffix.lower() == ".zip":
        found = _Found(progress)
        _a_zip(found, PurePosixPath(top.name), top)
        return found.hand_ins(), found.troubles
    if not top.is_dir():
        raise StudentError(f"{folder}, which is no folder", "the folder with what was handed in", "hand-ins")
    found = _Found(progress)
    for at, folders, names in os.walk(top, followlinks=False):
        folders.sort()
        for name in sorted([*names, *(one for one in folders if (Path(at) / one).is_symlink())]):
            path = Path(at) / name
            below = PurePosixPath(path.relative_to(top).as_posix())
            if path.is_symlink() or not path.is_file():
                found.trouble(below, "a link or no ordinary file: not followed")
            elif name.lower().endswith(".zip"):
                _a_zip(found, below, path)
            else:
                found.take(below, lambda below=below, path=path: _on_disk(found, below, path, LARGEST_FILE))
    return found.hand_ins(), found.troubles


def _a_zip(found, below, path):
    found.budget = LARGEST_INSIDE
    if _fits(found, below, path, LARGEST_ZIP):
        _unzip(found, below, path, 1)


def _on_disk(found, below, path, most):
    try:
        return path.read_bytes() if _fits(found, below, path, most) else None
    except OSError as error:
        found.trouble(below, f"cannot be read ({error.strerror or error})")
        return None


def _fits(found, below, path, most):
    try:
        fits = path.stat().st_size <= most
    except OSError as error:
        found.trouble(below, f"cannot be read ({error.strerror or error})")
        return False
    if not fits:
        found.trouble(below, f"larger than {most // 1_000_000} MB: not read")
    return fits


def _unzip(found, below, source, depth):
    """Everything in a zip: source is its path on the disk, or the bytes of one that lay in another."""
    if depth > DEEPEST:
        found.trouble(below, f"a zip in more than {DEEPEST} zips: not read")
        return
    try:
        with open(source, "rb") if isinstance(source, Path) else io.BytesIO(source) as raw:
            head = raw.read(4)
            other = next((name for sign, name in _OTHERS_UNDER_THE_NAME.items() if sign == head[: len(sign)]), "")
            if other:
                found.trouble(below, f"{other} file under the name of a zip: ask for a zip")
                return
            before = len(found.places), len(found.troubles)
            with zipfile.ZipFile(raw) as archive:
                _each(found, below, archive, depth)
            if before == (len(found.places), len(found.troubles)):
                found.trouble(below, "a zip with no answers in it: the wrong one?")
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, EOFError):
        found.trouble(below, "a zip that is damaged: ask for it again")


def _each(found, below, archive, depth):
    inside = [one for one in archive.infolist() if not one.is_dir()]
    if len(inside) > MOST_INSIDE:
        found.trouble(below, f"{len(inside)} files in one zip: not read")
        return
    for one in sorted(inside, key=lambda one: one.filename):
        path = _inside(found, below, one.filename)
        if stat.S_ISLNK(one.external_attr >> 16):
            found.trouble(path, "a link in a zip: not followed")
        elif path.name.lower().endswith(".zip"):
            nested = _member(found, path, archive, one, LARGEST_INSIDE)
            if nested is not None:
                _unzip(found, path, nested, depth + 1)
        else:
            found.take(path, lambda path=path, one=one: _member(found, path, archive, one, LARGEST_FILE))


def _inside(found, below, name):
    """The path of a file in a zip, below the zip whatever it says of itself."""
    parts = [part for part in re.split(r"[/\\]+", name) if part not in ("", ".")]
    if ".." in parts or name.startswith(("/", "\\")) or re.match(r"[A-Za-z]:", name):
        found.trouble(below, f"a path in it that climbs out: {shown(name)}; read where it lies, nothing was written")
    return below.joinpath(*([part for part in parts if part != ".."] or ["a file without a name"]))


def _member(found, path, archive, one, most):
    most = min(most, found.budget)
    try:
        with archive.open(one) as file:
            raw = file.read(most + 1)  # never by what the zip says of its size
    except (RuntimeError, zipfile.BadZipFile, zlib.error, OSError, NotImplementedError, EOFError):
        found.trouble(path, "cannot be unpacked: damaged, or with a password")
        return None
    found.budget -= min(len(raw), most)
    if len(raw) > most:
        found.trouble(path, "more in it than answers can be: not read")
        return None
    return raw


def carried(hand_in):
    """{id: Values} of the values files that came with a hand-in, those whose content has the id they are named by.

    Nothing is marked by them: they show an instructor what a student had before them.

    >>> carried(HandIn("17", values={"0badc0de": b"nothing of the kind"}))
    {}
    """
    found = {}
    for name, raw in hand_in.values.items():
        try:
            values = exercise_values.survey(raw)
        except StudentError:
            continue
        if values.id == name:
            found[name] = values
    return found
