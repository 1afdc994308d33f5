"""Closed, restarted and opened again, a lesson shows nothing red and nothing dead, and every cell wakes up by itself."""

import json
import re

import pytest

from pastrylab.course.catalogue import exercise
from pastrylab.school.engine import case

pytestmark = [pytest.mark.browser, pytest.mark.slow]

LESSONS = (
    "00-start-here",
    "01-weigh-convert-scale",
    "02-tempering",
    "02b-hold-and-read",
    "03-ganache-emulsion",
    "04-invert-sugar",
    "05-keeping",
    "06-shells-and-moulds",
    "07-store-and-serve",
    "08-cost-and-price",
)
_DEAD = re.compile(r"model not found|Error displaying widget|Traceback|NameError|Loading widget")
_OPEN = """async path => {
    const panel = await jupyterapp.commands.execute('docmanager:open', {path});
    await panel.context.ready;
    await panel.sessionContext.ready;
    window.panel = panel;
}"""
_RESTED = """() => !panel.node.textContent.includes('Loading widget')
    && panel.content.widgets.every(cell => cell.model.type !== 'code' || cell.model.executionCount > 0)"""


@pytest.fixture
def shop(page, lab):
    """A page with JupyterLab in it and no lesson open."""
    address, _ = lab
    page.goto(re.sub(r"/doc/tree/[^?]*", "/lab/workspaces/back", address).replace("?", "?reset&", 1))
    page.wait_for_function("window.jupyterapp && jupyterapp.restored.then(() => true)", timeout=90_000)
    yield page
    page.evaluate("async () => { await jupyterapp.serviceManager.sessions.shutdownAll() }")


def run_all(page):
    page.evaluate("async () => { await jupyterapp.commands.execute('notebook:run-all-cells') }")
    page.wait_for_function(_RESTED, timeout=60_000)


def run_alone(page, index):
    """Shift-Enter in one code cell."""
    page.evaluate(
        """async index => {
            const notebook = panel.content;
            const at = notebook.widgets.map((w, i) => [w.model.type, i]).filter(([t]) => t === 'code')[index][1];
            notebook.deselectAll();
            notebook.activeCellIndex = at;
            await jupyterapp.commands.execute('notebook:run-cell-and-select-next');
        }""",
        index,
    )
    # Of the other cells none need have run.
    page.wait_for_function("() => !panel.node.textContent.includes('Loading widget')", timeout=60_000)


def dead(page):
    """What a reader would see of the dead: words, and red."""
    text = page.evaluate("() => panel.node.textContent")
    red = page.evaluate(
        """() => panel.node.querySelectorAll(
            '[data-mime-type="application/vnd.jupyter.stderr"], [data-mime-type="application/vnd.jupyter.error"]').length"""
    )
    return _DEAD.findall(text) + ["red"] * red


@pytest.mark.parametrize("name", LESSONS)
def test_nothing_dead_stands_in_a_lesson_opened_again(name, shop, lab):
    page = shop
    _, workbook = lab
    path = f"lessons/{name}.ipynb"
    page.evaluate(_OPEN, path)
    run_all(page)
    assert dead(page) == [] and page.locator(".jp-OutputArea-output .widget-text, .widget-text").count() > 0
    page.evaluate(
        """async () => {
            await panel.context.save();
            // What the file lost on its way to the disk is no change by somebody else: saved again, nothing is asked.
            panel.context.model.dirty = true;
            await panel.context.save();
            await panel.sessionContext.shutdown();
            panel.close();
        }"""
    )
    assert page.locator(".jp-Dialog").count() == 0
    saved = (workbook / path).read_text(encoding="utf-8")
    assert "widget-view" not in saved and "widgets" not in json.loads(saved)["metadata"]
    page.reload()
    page.wait_for_function("window.jupyterapp && jupyterapp.restored.then(() => true)", timeout=90_000)
    page.evaluate(_OPEN, path)
    assert dead(page) == []
    page.locator(".jp-RenderedMarkdown").get_by_text("each time you come back").first.wait_for()
    cells = sum(cell["cell_type"] == "code" for cell in json.loads(saved)["cells"])
    for index in (cells - 1, cells // 2, 0):
        run_alone(page, index)
        assert dead(page) == [], index
    if not name.startswith("02-"):
        return
    # The kernel restarted under the open page: what stood there is gone with it, and a cell wakes up again.
    page.evaluate("async () => { await panel.sessionContext.session.kernel.restart() }")
    page.wait_for_timeout(1000)
    assert dead(page) == []
    run_alone(page, cells - 1)
    assert dead(page) == []


def test_the_right_answer_stands_there_again_and_not_the_wrong_one_after_it(shop, lab):
    page = shop
    page.evaluate(_OPEN, "lessons/05-keeping.ipynb")
    run_all(page)
    which = exercise("05.highest-reading")
    right = case(which).answer
    box, check = page.get_by_label("Your answer, a plain number").nth(1), None
    check = page.get_by_role("button", name="Check", exact=True).nth(2)
    for answer, says in ((right, r"^Right"), ("0.5", r"^Not yet"), ("", r"box is empty")):
        box.fill(answer)
        check.click()
        page.locator(".jp-OutputArea-output").get_by_text(re.compile(says)).first.wait_for(timeout=20_000)
    page.evaluate("async () => { await panel.context.save(); await panel.sessionContext.shutdown(); panel.close(); }")
    page.evaluate(_OPEN, "lessons/05-keeping.ipynb")
    run_all(page)
    assert box.input_value() == right
    page.get_by_text(re.compile(r"^Your answer of \d{4}-\d\d-\d\d\. Right")).first.wait_for(timeout=20_000)
