"""What students get of a workbook. A student's own server asks this at its start: no units and no tables are woken here."""

from __future__ import annotations

import json
import re
from pathlib import Path

from pastrylab.desk import workbook
from pastrylab.ground.errors import StudentError
from pastrylab.ground.sheet_names import SHEETS

_LOGS = ("cream_logs", "probe_logs", "store_logs", "reference")
_BESIDE = re.compile(r"\.new-[^/]*$")  # what an update laid beside a changed file
FOR_INSTRUCTORS = "instructor-desk.ipynb"


def lay_out(root: Path, folder: Path) -> None:
    """Write into a folder what students get of a workbook: lessons not run, sheets, pictures, nothing else."""
    for name, data in carried(root)[0].items():
        workbook.write_whole(folder / name, data)


def carried(root: Path) -> tuple[dict[str, bytes], list[str]]:
    """The workbook's files as students get them, and the names of those left out: nothing nobody reads goes along."""
    taken, left_out = {}, []
    for name, path in workbook.shipped_files(root).items():
        if _BESIDE.search(name) or name.endswith(f"/{FOR_INSTRUCTORS}"):
            continue
        if _belongs(name):
            taken[name] = _not_run(name, path.read_bytes())
        else:
            left_out.append(name)
    return taken, left_out


def _belongs(name: str) -> bool:
    """Whether a file is a lesson, its picture, or a sheet that the package reads; a class list beside them is not."""
    top, *more = name.split("/")
    if top == "lessons":
        return name.endswith(".ipynb") or more[0] == "pictures"
    return "/".join(more) in SHEETS or more[0] == "SOURCES.md" or (len(more) == 2 and more[0] in _LOGS)


def _not_run(name: str, data: bytes) -> bytes:
    """A lesson as before anybody ran it: what an instructor's run left in it, a name among it, is nobody else's."""
    if not name.endswith(".ipynb"):
        return data
    try:
        notebook = json.loads(data)
        notebook["metadata"].pop("widgets", None)
        for cell in notebook["cells"]:
            if cell["cell_type"] == "code" and "keep_output" not in cell["metadata"].get("tags", []):
                cell["outputs"] = []
    except (ValueError, KeyError, TypeError, AttributeError):
        raise StudentError(f"{name}, which is no lesson any more", "the lesson as it was", "pastrylab open") from None
    return (json.dumps(notebook, indent=1, ensure_ascii=False) + "\n").encode()
