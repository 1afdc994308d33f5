"""No exercise's answer, with the class values, stands on the page it is asked on: in its text, its outputs, its benches."""

import ast
import html
import json
import re
from pathlib import Path

import ipywidgets as widgets
import matplotlib
import pytest

from pastrylab.course.catalogue import EXERCISES
from pastrylab.page.bench import Bench
from pastrylab.page.picture import Picture
from pastrylab.school.engine import case
from pastrylab.school.exercise_values import values

LESSONS = Path(__file__).resolve().parents[2] / "lessons"
PATHS = {path.stem.partition("-")[0]: path for path in sorted(LESSONS.glob("[!l]*.ipynb"))}
NUMBER = re.compile(r"(?<![\w.,])([$]?)(\d+(?:\.\d+)?) ?(°[CF]|[a-zA-Z%]+)?")
# A number of two digits stands in every text; one of three that rounds to the answer gives it away, and in a bench any.
ENOUGH = 3


def shown(widget):
    """Every text of a widget as a page opens with it, and of what lies in it."""
    found = [getattr(widget, "value", ""), getattr(widget, "description", "")]
    found += [widget.placeholder] if isinstance(widget, widgets.Text) else []
    found = [text for text in found if isinstance(text, str)]  # a slider's places are no text
    for child in getattr(widget, "children", ()):
        found += shown(child)
    return found


def opened(source):
    """What the last line of a cell shows: a widget."""
    tree = ast.parse(source)
    last = ast.Expression(tree.body.pop().value)
    space = {"__name__": "__main__"}
    exec(compile(tree, "a cell", "exec"), space)
    return eval(compile(last, "a cell", "eval"), space)


@pytest.fixture(scope="module", params=[number for number in PATHS if number != "00"])
def page(request, tmp_path_factory):
    """The exercises of a lesson, each with what stands above it: [(exercise, [(cell, text)], [(cell, widget)])]."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path_factory.mktemp("workbook")))
        patch.setattr(Picture, "png", lambda picture: b"not drawn")  # what is read of a picture is its alt text
        yield read(PATHS[request.param])


def read(path):
    matplotlib.use("agg")
    asked, texts, benches = [], [], []
    for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
        source = "".join(cell["source"])
        if which := re.search(r'benches\.exercise\("([^"]+)"\)', source):
            asked.append((EXERCISES[which[1]], list(texts), list(benches)))
        elif cell["cell_type"] == "markdown":
            texts.append((cell["id"], source))
        elif cell["outputs"]:
            texts.append((cell["id"], "".join("".join(out["text"]) for out in cell["outputs"])))
        elif "benches.start(" not in source:
            benches.append((cell["id"], opened(source)))
    return asked


def digits(written):
    return len(written.replace(".", "").lstrip("0"))


def read_aloud(text):
    """HTML as it is read: no tags, the alt text of a picture in its place."""
    return html.unescape(re.sub(r"<[^>]+>", " ", re.sub(r'<img[^>]*alt="([^"]*)"[^>]*>', r" \1 ", text)))


def stands_in(text, answer, few=False):
    """The place where a text holds the answer, rounded as it may be, in the answer's unit; "" where it does not."""
    currency, number, unit = NUMBER.match(answer).groups()
    text, least = read_aloud(text), min(ENOUGH, digits(number)) if few else ENOUGH
    for found in NUMBER.finditer(text):
        if (found[1], found[3] or "") != (currency, unit or "") or digits(found[2]) < least:
            continue
        half = 0.5 * 10.0 ** -len(found[2].partition(".")[2])
        if abs(float(found[2]) - float(number)) <= half * 1.001:
            return text[max(0, found.start() - 30) : found.end() + 30]
    return ""


def test_no_answer_stands_above_its_exercise(page):
    found = []
    for exercise, texts, benches in page:
        if exercise.kind == "choice":
            continue
        answer = case(exercise).answer
        seen = [(cell, text, False) for cell, text in texts]
        seen += [(cell, text, True) for cell, widget in benches for text in shown(widget)]
        found += [(exercise.id, answer, cell, at) for cell, text, few in seen if (at := stands_in(text, answer, few))]
    assert "\n".join(map(str, found)) == ""


def test_no_bench_opens_with_the_numbers_of_an_exercise(page):
    """Two givens or more at a bench's opening values: its sentence says the rest."""
    found = []
    for exercise, _texts, benches in page:
        given = [(row.value, row.unit) for row in values().of(exercise.id).values()]
        for cell, bench in benches:
            if isinstance(bench, Bench):
                opening = [control.value for control in bench.controls.values()]
                met = [value for value, _unit in given if value in opening]
                found += [(exercise.id, cell, met)] * (len(met) >= max(2, len(given) - 1))
    assert "\n".join(map(str, found)) == ""
