"""``pastrylab plan``: an order in a file becomes a folder to print from and to buy by."""

import csv
from pathlib import Path

from markupsafe import Markup

from pastrylab.ground.units import StudentError
from pastrylab.page.lab_day.sheets import lab_day_html
from pastrylab.page.lab_day.timeline import work_of
from pastrylab.page.label_sheet import labels_html
from pastrylab.page.parts import part
from pastrylab.trade.orders import quantities, read_order, requisition, table
from pastrylab.trade.orders.day import lab_of, steps_of
from pastrylab.trade.planning import NoPlan, make_plan
from pastrylab.trade.statement import label

_LONGEST = 100_000  # characters of an order
_OF_A_PLAN = ("plan.csv", "day.html", "labels.html")


def plan_order(order, folder, aim="latest start", rejects="0 %", seconds=10.0, law="US", box=12):
    """Plan the order in a file and write requisition.csv, plan.csv, day.html and labels.html into a folder, made if need be.

    order: path of a text or CSV file, a line a flavour (read_order); folder: where the files go, overwritten; aim: one of
    planning.AIMS; rejects: share of what is cast; law: "US" or "EU", of the labels; box: pieces in a box. Returns (whether it fits, what to tell the person: a list of sentences). Where no plan fits,
    the requisition is written, and the sentences say what clashes. Raises StudentError for an order that cannot be read.
    """
    if not 1 <= seconds <= 3600:
        raise StudentError(f"{seconds:g} seconds to look for a plan", "1 to 3600 seconds", "10")
    found = quantities(read_order(_text(Path(order))), rejects, left="5 %", lost="5 g", rest="150 g")
    labels = _labels(found, law, box)  # first, so that nobody waits for a plan to hear of a box of none
    steps, holds = steps_of(found)
    plan = make_plan(steps, holds, lab_of(), aim, seconds)
    folder = _made(Path(folder))
    _write(folder / "requisition.csv", table(requisition([found.ingredients])))
    if isinstance(plan, NoPlan):
        for name in _OF_A_PLAN:  # an earlier order's must not stand beside this requisition
            (folder / name).unlink(missing_ok=True)
        return False, [plan.sentence, f"{folder / 'requisition.csv'} says what the order takes."]
    _write(folder / "plan.csv", work_of(plan))
    title = f"Lab day: {', '.join(f'{one.pieces} {one.name}' for one in found.flavours)}"
    page = part("sheet", title=title, body=Markup(lab_day_html(title, found, plan)))
    (folder / "day.html").write_text(str(page), encoding="utf-8")
    (folder / "labels.html").write_text(labels, encoding="utf-8")
    written = f"Written to {folder}: requisition.csv, plan.csv, and day.html and labels.html to print."
    return True, [plan.proof, written]


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


def _write(path, rows):
    with open(path, "w", encoding="utf-8-sig", newline="") as file:  # a spreadsheet opens it by double-click
        csv.writer(file).writerows(rows)
