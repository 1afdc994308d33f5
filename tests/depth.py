"""Two depths: what a person waits for, and with PASTRYLAB_DEEP=1, as on the server that tests every change, all there is."""

import os
from pathlib import Path

import pytest

DEEP = bool(os.environ.get("PASTRYLAB_DEEP"))
# Between them they hold every kind of card, picture and table.
_OPENED_QUICK = ("00-", "02-", "08-", "instructor")


def depth(quick, deep):
    """How many students, settings or examples a test goes through. The quick ones are among the deep ones: numbers and
    seeds are fixed, nothing is drawn anew from day to day."""
    return deep if DEEP else quick


def lessons_in_a_browser(quick=_OPENED_QUICK):
    """The lessons' file names as parameters; a browser opens some of them quick, all of them deep."""
    folder = Path(__file__).resolve().parents[1] / "lessons"
    return [
        pytest.param(path.name, marks=() if path.name.startswith(quick) else pytest.mark.deep, id=path.stem)
        for path in sorted(folder.glob("*.ipynb"))
    ]
