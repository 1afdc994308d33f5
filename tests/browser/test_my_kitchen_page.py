"""One's own kitchen in a browser: a label, a couverture, a price typed by keyboard, and there in the lessons after."""

import importlib.util
import shutil
from pathlib import Path

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

_access = importlib.util.spec_from_file_location("access", Path(__file__).with_name("test_access.py"))
access = importlib.util.module_from_spec(_access)
_access.loader.exec_module(access)

KITCHEN = "[data-lesson] .pastrylab-kitchen"
# Title of the form; what is typed, by the label of its box; the button; what is said then.
FORMS = {
    "An ingredient": (
        {"I call it": "my cream 36", "Fat (g)": "36", "Carbohydrate (g)": "2,9", "of which sugars (g)": "2,9"}
        | {"Protein (g)": "2.1", "1 mL weighs (g)": "1"},
        "Kept: my cream 36.",
    ),
    "A couverture": (
        {"I call it": "my dark 66", "Melt out to": "113-122 F", "Cool to": "27 to 28", "Work at": "31 to 32 °C"},
        "Kept: my dark 66.",
    ),
    "A price": (
        {"I buy": "cream, carton", "Pack and price": "1 L for 6.40", "It is the ingredient": "my cream 36"},
        "Kept: cream, carton.",
    ),
}


def mark(page):
    page.evaluate(
        "() => { window.panel = jupyterapp.shell.currentWidget; panel.node.setAttribute('data-lesson', ''); }"
    )


@pytest.fixture
def kitchen(open_lesson, lab):
    page = open_lesson("00-start-here.ipynb", "I call it")
    mark(page)
    yield page
    shutil.rmtree(lab[1] / "lessons" / "my-kitchen", ignore_errors=True)
    page.evaluate("async () => { await jupyterapp.serviceManager.sessions.shutdownAll() }")


def test_three_packs_by_keyboard_and_in_the_lessons_after(kitchen, open_lesson):
    page = kitchen
    place = page.locator(KITCHEN)
    for title, (typed, said) in FORMS.items():
        place.get_by_role("button", name=title, exact=True).focus()
        page.keyboard.press("Enter")
        place.get_by_label(list(typed)[-1], exact=True).wait_for()  # the form is there
        for label, text in typed.items():
            place.get_by_label(label, exact=True).focus()
            page.keyboard.type(text)
        place.get_by_role("button", name="Keep it", exact=True).focus()
        page.keyboard.press("Enter")
        place.get_by_text(said).wait_for()
        assert _violations(page) == [], title
    _narrow(page, place)

    open_lesson("01-weigh-convert-scale.ipynb", "Prep list")
    mark(page)
    page.get_by_label("Prep list", exact=True).first.focus()
    page.keyboard.type("200 g my cream 36\n1/2 cup My Cream 36")
    page.keyboard.press("Tab")
    # Half a cup is 118.3 mL, and a millilitre of this cream weighs a gram.
    page.get_by_text("One ingredient, together 318.3 g").first.wait_for(timeout=60_000)


def _violations(page):
    if not page.evaluate("!!window.axe"):
        page.evaluate(access.AXE_SCRIPT)
    found = page.evaluate(
        "async where => await axe.run(where, {resultTypes: ['violations']})", {"include": [[KITCHEN]]}
    )
    return [(rule["id"], node["html"][:200]) for rule in found["violations"] for node in rule["nodes"]]


def _narrow(page, place):
    """At 390 px nothing sticks out, whichever form is open, with all that it says."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.wait_for_function("() => panel.node.getBoundingClientRect().right <= 390")
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
    for title in FORMS:
        place.get_by_role("button", name=title, exact=True).click()
        page.wait_for_timeout(300)
        assert "\n".join(page.evaluate(access._CRAMPED)) == "", title
    page.set_viewport_size({"width": 1280, "height": 1000})
