"""A lesson's text as its notebook has it: its title, its caution, its sheets for paper, as HTML that needs no other file."""

import base64
import json
import re
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from pastrylab.ground import files
from pastrylab.ground.mark_tables import lesson_named
from pastrylab.ground.units import StudentError

_NUMBERED = re.compile(r"(\d\d[a-z]?)-.+\.ipynb")
_LATER = re.compile(r"\.new-[^/]*$")  # what an update laid beside a changed file
_PICTURE = re.compile(r'src="(pictures/[\w-]+\.svg)"')
_FOLDED = re.compile(r"</?details>|<summary>.*?</summary>", re.DOTALL)
_BLANK = re.compile(r"_{3,}")


@dataclass(frozen=True)
class Sheet:
    """A sheet of a lesson for paper: the lesson's number, its heading, its text in Markdown without fold and heading."""

    lesson: str
    heading: str
    text: str

    @property
    def name(self):
        """Its heading as the name of a file: letters, digits and dashes."""
        return "-".join(re.findall(r"[a-z0-9]+", self.heading.split("(")[0].casefold())) or "sheet"


@dataclass(frozen=True)
class Lesson:
    """A lesson's number, its notebook's path, its title, the text of its caution in Markdown, and its sheets for paper."""

    number: str
    path: Path
    title: str
    caution: str
    sheets: tuple[Sheet, ...]

    @property
    def folder(self):
        """Where its pictures lie."""
        return self.path.parent


def lesson_files():
    """{number: path} of the lessons in force, in their order: the workbook's, else those that came with the package."""
    own = files.workbook()
    folder = own / "lessons" if own and (own / "lessons").is_dir() else files.folder().parent / "lessons"
    found = {}
    for path in sorted(folder.glob("*.ipynb")):
        if (named := _NUMBERED.fullmatch(path.name)) and not _LATER.search(path.stem):
            found.setdefault(named[1], path)
    return found


def lesson(number):
    """The Lesson of a number such as "02" or "2b". Raises StudentError, which lists the numbers, and for a torn notebook."""
    known, wanted = lesson_files(), lesson_named(str(number))
    if wanted not in known:
        raise StudentError(f"'{number}' as a lesson", "one of " + ", ".join(known), "02")
    path = known[wanted]
    try:
        cells = [
            (set(cell.get("metadata", {}).get("tags", [])), "".join(cell["source"]))
            for cell in json.loads(path.read_bytes())["cells"]
            if cell["cell_type"] == "markdown"
        ]
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        raise StudentError(
            f"{path.name}, which cannot be read as a lesson", "the lesson as it was handed out", "pastrylab open"
        ) from None
    title = next((text.splitlines()[0].lstrip("# ") for _, text in cells if text.startswith("# ")), path.stem)
    caution = next((text for _, text in cells if text.startswith("> **Careful.**")), "")
    sheets = [_sheet(wanted, text) for tags, text in cells if "paper" in tags and text.strip()]
    return Lesson(wanted, path, title, caution.replace("\n> ", "\n").removeprefix("> "), tuple(sheets))


def _sheet(number, text):
    heading, _, rest = text.strip().partition("\n")
    return Sheet(number, heading.lstrip("# "), _FOLDED.sub("", rest).strip())


def html(text, folder):
    """A lesson's Markdown as HTML: pictures of the folder stand in it, a line to write on is a line. A Markup.

    The text is the instructor's own file and may hold HTML, as in a notebook.
    """
    from nbconvert.filters import markdown2html  # slow to import, and of no other use here

    def embedded(found):
        path = folder / found[1]
        if not path.is_file():
            return found[0]
        return f'src="data:image/svg+xml;base64,{base64.b64encode(path.read_bytes()).decode("ascii")}"'

    def line(found):
        return f'<span class="blank" style="min-width: min({len(found[0])}ch, 100%)"></span>'

    # Lines first: a row of nothing but underscores would become a rule across the page.
    return Markup(_PICTURE.sub(embedded, markdown2html(_BLANK.sub(line, text))))


def table_rows(text):
    """The rows of the first table in a Markdown text, lists of cells, headings first; [] without one."""
    rows = []
    for row in text.splitlines():
        if row.startswith("|"):
            rows.append([cell.strip() for cell in row.strip().strip("|").split("|")])
        elif rows:
            break
    return [row for at, row in enumerate(rows) if at != 1]


def pictured(found):
    """Names of the pictures that a Lesson's sheets show, such as "fat bloom", a set."""
    return {
        Path(name).stem.replace("-", " ")
        for sheet in found.sheets
        for name in re.findall(r"pictures/[\w-]+\.svg", sheet.text)
    }
