"""Arithmetic before code: a worked example stands in numbers beside its cell, and every sum in a lesson's text holds."""

import json
import re
from pathlib import Path

import pytest
from paper_sums import off, sums

LESSONS = sorted((Path(__file__).resolve().parents[2] / "lessons").glob("*.ipynb"))

# Cells that reckon nothing: they look up bands, and what a bowl at a temperature needs.
LOOKED_UP = {"bands", "next-step"}


def read_aloud(markdown):
    return re.sub(r"\*\*|(?<!\w)\*|\*(?!\w)|<[^>]+>|`", "", markdown)


@pytest.fixture(params=LESSONS, ids=lambda path: path.stem)
def cells(request):
    return json.loads(request.param.read_text(encoding="utf-8"))["cells"]


def test_every_sum_in_the_text_holds(cells):
    wrong = []
    for cell in cells:
        if cell["cell_type"] == "markdown":
            for left, right, half, _ in sums(read_aloud("".join(cell["source"]))):
                if off(left, right, half):
                    wrong.append((cell["id"], left.tokens, left.worth(), right))
    assert "\n".join(map(str, wrong)) == ""


def test_a_worked_example_stands_in_numbers_beside_its_code(cells):
    """In the text right before it, or right after it; cells that follow one another share it."""
    bare = []
    for at, cell in enumerate(cells):
        if "nbval-check-output" not in cell["metadata"].get("tags", []) or cell["id"] in LOOKED_UP:
            continue
        before, after = at, at
        while cells[before]["cell_type"] == "code":
            before -= 1
        while after < len(cells) - 1 and cells[after]["cell_type"] == "code":
            after += 1
        texts = [read_aloud("".join(cells[i]["source"])) for i in (before, after)]
        if not any(left.numbers()[1:] for text in texts for left, *_ in sums(text)):
            bare.append(cell["id"])
    assert bare == []
