"""The lessons as pages without code, full width on a telephone: links to them, or how to come by them."""

import importlib.util
import json
import os
from urllib.parse import quote

import ipywidgets as widgets

from pastrylab.ground import files
from pastrylab.page.boxes import WIDE
from pastrylab.page.parts import part, text_html

_NONE = (
    "Pages without code need Voilà beside pastrylab: pip install voila, in the same environment, then open the lessons "
    "again. On a class's server it is there."
)


class AsPages(widgets.HTML):
    """A link a lesson. The pages stand on the server this page came from, under its own address."""

    def __init__(self):
        there = importlib.util.find_spec("voila") is not None
        super().__init__(str(part("as_pages", lessons=_lessons())) if there else text_html(_NONE), layout=WIDE)


def _lessons():
    """[(address, title)] of the lessons in the workbook, in order."""
    folder = (files.workbook() or files.folder().parent) / "lessons"
    base = os.environ.get("JUPYTERHUB_SERVICE_PREFIX", "/")
    return [
        (f"{base}voila/render/lessons/{quote(path.name)}", title)
        for path in sorted(folder.glob("[0-9]*.ipynb"))
        if (title := _title(path))
    ]


def _title(path):
    """The number of a lesson and its heading; "" for a file that is no notebook."""
    try:
        first = "".join(json.loads(path.read_bytes())["cells"][0]["source"])
    except (OSError, ValueError, LookupError, TypeError):
        return ""
    return f"{path.name.partition('-')[0]} {first.splitlines()[0].lstrip('# ')}" if first else ""
