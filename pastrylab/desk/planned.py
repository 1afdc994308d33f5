"""``pastrylab plan``: an order in a file becomes a folder to print from and to buy by; several sections, a folder in it each."""

import re
from pathlib import Path

from markupsafe import Markup

from pastrylab.course.labday.make_up import make_up, read_absent
from pastrylab.course.labday.make_up_sheet import key_html, sheets_html
from pastrylab.desk.spreadsheet import write_csv
from pastrylab.ground.units import StudentError
from pastrylab.page.lab_day.sheets import lab_day_html, requisition_html
from pastrylab.page.lab_day.timeline import work_of
from pastrylab.page.label_sheet import labels_html
from pastrylab.page.parts import part
from pastrylab.school.exercise_values import values
from pastrylab.trade.orders import quantities, read_rejects, read_sheet, requisition, table
from pastrylab.trade.orders.day import lab_of, paired, steps_of
from pastrylab.trade.planning import NoPlan, make_plan
from pastrylab.trade.statement import label

_LONGEST = 100_000  # characters of an order
_OF_A_PLAN = ("plan.csv", "day.html", "labels.html")
_PRINT = "day.html, labels.html and requisition.html"
_ALONE = (
    "Each section is planned as if lab, moulds and hours were its own: put them on days of their own, or edit lab.csv."
)


def plan_order(
    order, folder, aim="latest start", rejects="0 %", seconds=10.0, law="US", box=12, students=None, absent=""
):
    """Plan the order in a file, or in several, and write what to print and to buy by into a folder, made if need be.

    order: path of a text or CSV file, or a list of them (read_sheet); folder: where the files go, overwritten; aim: one of
    planning.AIMS; rejects: share of what is cast ("10 %", "2 in 25"); law: "US" or "EU", of the labels; box: pieces in a
    box; students: how many are there, in pairs; None for the pairs of lab.csv; absent: who was not there and what was missed ("17: day 1; 23: both days"), for
    make-up.html and its key. requisition.csv and requisition.html are of
    all sections together; plan.csv, day.html and labels.html of each, in a folder of its own where there are several.
    Returns (whether all fits, what to tell the person: a list of sentences). Where no plan fits, the requisition is written,
    and the sentences say what clashes. Raises StudentError for an order that cannot be read.
    """
    if not 1 <= seconds <= 3600:
        raise StudentError(f"{seconds:g} seconds to look for a plan", "1 to 3600 seconds", "10")
    sheets = _sheets([order] if isinstance(order, str | Path) else list(order))
    share, lab = read_rejects(str(rejects)), lab_of() if students is None else paired(students, lab_of())
    days = [_Day(title, name, one, notes, share) for title, name, one, notes in sheets]
    drafts = [
        _labels(day.found, law, box) for day in days
    ]  # first, so that nobody waits for a plan to hear of a box of none
    plans = [make_plan(*steps_of(day.found), lab, aim, seconds) for day in days]
    labs = [make_up(*one, word=values().word) for one in read_absent(absent)] if absent else []
    folder = _made(Path(folder))
    _write_make_up(folder, labs)
    _write_requisition(folder, days)
    alone, fits, said = len(days) == 1, True, ["For who was absent: make-up.html and make-up-key.html."] if labs else []
    for day, plan, labels in zip(days, plans, drafts, strict=True):
        fits &= not isinstance(plan, NoPlan)
        said += _write_day(folder if alone else _made(folder / _plain(day.name)), day, plan, labels)
    if alone and not fits:
        return fits, [*said, f"{folder / 'requisition.csv'} says what the order takes."]
    if alone:
        return fits, [*said, f"Written to {folder}: requisition.csv, plan.csv, and {_PRINT} to print."]
    _away(folder)
    return fits, [
        *said,
        f"Written to {folder}: requisition.csv and requisition.html of all sections together; a section that "
        f"fits has plan.csv, day.html and labels.html in a folder of its own. {_ALONE}",
    ]


class _Day:
    """What one section makes on a day of its own, and how it is called."""

    def __init__(self, title, name, section, notes, share):
        self.name, self.notes = name, notes
        usual = {"left": "5 %", "lost": "5 g", "rest": "150 g"}
        self.found = quantities(section.order, share, brought=section.brought, **usual)
        self.makes = ", ".join(f"{one.pieces} {one.name}" for one in self.found.flavours)
        self.title = ", ".join(filter(None, (title, name))) or "Lab day"


def _sheets(paths):
    """(title, name of the section, Section, notes) of everything ordered. Raises StudentError for two of one name."""
    found = []
    for path in map(Path, paths):
        sheet = read_sheet(_text(path))
        for section in sheet.sections:
            name = section.name if len(paths) == 1 else ", ".join(filter(None, (path.stem, section.name)))
            found.append((sheet.title, name, section, sheet.notes))
    folders = [_plain(name) for _, name, *_ in found]
    twice = next((one for one in folders if folders.count(one) > 1), None)
    if twice is not None and len(found) > 1:
        raise StudentError(f"two sections called {twice}", "a name of its own for each", "Section A, Section B")
    return found


def _plain(name):
    """A section's name as a folder's, on every system."""
    return re.sub(r"[^\w]+", "-", name.casefold()).strip("-")[:60] or "section"


def _write_requisition(folder, days):
    founds = [day.found for day in days]
    write_csv(folder / "requisition.csv", table(requisition([found.ingredients for found in founds])))
    sections = [f"{day.title}: {day.makes}." for day in days]
    page = requisition_html("Requisition", founds, sections=sections)
    _write_page(folder / "requisition.html", "Requisition", page)


def _write_day(folder, day, plan, labels):
    """Write what belongs to a section's day, and say how good its plan is, or what clashes."""
    head = f"{day.name}: " if day.name else ""
    if isinstance(plan, NoPlan):
        _away(folder)
        return [head + plan.sentence]
    write_csv(folder / "plan.csv", work_of(plan))
    _write_page(
        folder / "day.html", day.title, lab_day_html(f"{day.title}: {day.makes}", day.found, plan, notes=day.notes)
    )
    (folder / "labels.html").write_text(labels, encoding="utf-8")
    return [f"{head}{plan.proof}"]


def _write_make_up(folder, labs):
    if labs:
        _write_page(folder / "make-up.html", "Make-up labs", sheets_html(labs))
        _write_page(folder / "make-up-key.html", "Make-up labs: the key", key_html(labs))


def _away(folder):
    """An earlier order's plan must not stand beside this requisition."""
    for name in _OF_A_PLAN:
        (folder / name).unlink(missing_ok=True)


def _write_page(path, title, body):
    path.write_text(str(part("sheet", title=title, body=Markup(body))), encoding="utf-8")


def _made(folder):
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StudentError(
            f"{folder} ({error.strerror})", "a folder that can be made or written to", "friday"
        ) from None
    return folder


def _labels(found, law, box):
    names = [one.name for one in found.flavours]
    drafts = [label(name, box, law, beside=[other for other in names if other != name]) for name in names]
    title = f"Labels, boxes of {box}"
    return str(part("sheet", title=title, body=Markup(labels_html(title, drafts))))


def _text(path):
    try:
        raw = path.read_bytes()
    except OSError as error:
        raise StudentError(
            f"{path} ({error.strerror})", "a file with the order, a line a flavour", "order.csv"
        ) from None
    for encoding in ("utf-8-sig", "cp1252"):
        try:
            text = raw.decode(encoding)
            break
        except UnicodeDecodeError:
            continue
    else:
        raise StudentError(
            f"{path.name}, which is no text", "a file with the order, a line a flavour", "60 dark ganache"
        )
    if len(text) > _LONGEST:
        raise StudentError(f"{path.name}, a very long file", "a line a flavour", "60 dark ganache")
    return text


def files(folder):
    """The files of a plan in a folder, its sections' among them: what is to print first."""
    names = (
        "day.html",
        "labels.html",
        "requisition.html",
        "make-up.html",
        "make-up-key.html",
        "requisition.csv",
        "plan.csv",
    )
    return [path for name in names for path in (folder / name, *sorted(folder.glob(f"*/{name}"))) if path.exists()]
