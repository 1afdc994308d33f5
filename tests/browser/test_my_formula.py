"""One's own formula in a browser: typed by keyboard, a question answered, kept, there after a restart and in a lesson after."""

import importlib.util
import os
import shutil
from pathlib import Path

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

_access = importlib.util.spec_from_file_location("access", Path(__file__).with_name("test_access.py"))
access = importlib.util.module_from_spec(_access)
_access.loader.exec_module(access)

BOX = "[data-lesson] .pastrylab-formula"
# Heavy cream: 3/4 of a cup of 238 g (USDA SR28, 01053) is 178.5 g; with 300 g and 25 g that is 503.5 g.
LIST = "My truffle\n300 g chocolate 64 %\n3/4 cup heavy cream\nbutter; 25 g (soft)"
STEPS = ("Composition", "Mend", "Swap a sweetener", "Water activity", "Cost", "Percent and scale")
READ = "3 ingredients, together 503.5 g"


def shot(page, name):
    """A picture of the page for who asks for it."""
    folder = os.environ.get("PASTRYLAB_PICTURES")
    if folder:
        page.locator(BOX).first.screenshot(path=f"{folder}/{name}.png")


def type_list(page):
    page.locator(f"{BOX} textarea").first.focus()
    page.keyboard.press("Control+a")
    page.keyboard.type(LIST)
    page.keyboard.press("Tab")


def mark(page):
    """The lesson's panel by the name the access tests call it."""
    page.evaluate(
        """() => {
            window.panel = jupyterapp.shell.currentWidget;
            panel.node.setAttribute('data-lesson', '');
        }"""
    )


def run_again(page):
    page.evaluate(
        """async () => {
            await panel.sessionContext.session.kernel.restart();
            await jupyterapp.commands.execute('notebook:run-all-cells');
        }"""
    )


@pytest.fixture
def own(open_lesson, lab):
    page = open_lesson("01-weigh-convert-scale.ipynb", "Prep list")
    mark(page)
    yield page
    shutil.rmtree(lab[1] / "lessons" / "my-kitchen", ignore_errors=True)
    page.evaluate("async () => { await jupyterapp.serviceManager.sessions.shutdownAll() }")


def test_a_formula_of_ones_own_by_keyboard_and_on_another_day(own, open_lesson):
    page = own
    box = page.locator(BOX).first
    type_list(page)
    box.get_by_text("One question is open").wait_for()
    page.keyboard.press("Tab")  # "Read the list" is next: whoever presses it gets the same
    shot(page, "asked")
    box.get_by_label("Which ingredient is 'chocolate 64 %'?").focus()
    page.keyboard.type("dark couverture 64 %")
    page.keyboard.press("Tab")
    box.get_by_text(READ).wait_for()
    shot(page, "read")
    box.get_by_label("Keep it as").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("my truffle")
    page.keyboard.press("Enter")
    box.get_by_text("Kept as my truffle").wait_for()

    assert _violations(page) == []
    for step in STEPS:
        box.get_by_role("button", name=step, exact=True).focus()
        page.keyboard.press("Enter")
        page.wait_for_timeout(300)
        assert _violations(page) == [], step
        shot(page, f"wide {step}")
    _narrow(page, box)

    run_again(page)
    again = page.locator(BOX).first
    again.get_by_text(READ).wait_for(timeout=90_000)
    assert page.locator(f"{BOX} textarea").first.input_value() == LIST
    assert "my truffle" in again.get_by_label("Kept", exact=True).inner_text().replace("\xa0", " ")

    mark(open_lesson("03-ganache-emulsion.ipynb", "Prep list"))
    page.locator(BOX).first.get_by_text(READ).wait_for(timeout=60_000)


def _violations(page):
    if not page.evaluate("!!window.axe"):
        page.evaluate(access.AXE_SCRIPT)
    found = page.evaluate("async where => await axe.run(where, {resultTypes: ['violations']})", {"include": [[BOX]]})
    return [
        (rule["id"], node["html"][:200])
        for rule in found["violations"]
        for node in rule["nodes"]
        if not any(rule["id"] == one and words in node["html"] for one, words in access.ALLOWED)
    ]


def _narrow(page, box):
    """At 390 px nothing sticks out, whichever step is open."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.wait_for_function("() => panel.node.getBoundingClientRect().right <= 390")
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
    for step in STEPS:
        box.get_by_role("button", name=step, exact=True).click()
        page.wait_for_timeout(300)
        assert "\n".join(page.evaluate(access._CRAMPED)) == "", step
        shot(page, f"narrow {step}")
    page.set_viewport_size({"width": 1280, "height": 1000})
