"""Closed, restarted and opened again, a lesson shows nothing red and nothing dead, and every cell wakes up by itself."""

import json
import re

import pytest
from depth import DEEP, lessons_in_a_browser

from pastrylab.course.catalogue import exercise
from pastrylab.school.engine import case

pytestmark = [pytest.mark.browser, pytest.mark.slow]

LESSONS = lessons_in_a_browser(("02-", "instructor"))  # cards and benches, and buttons of the desk


@pytest.fixture(scope="module")
def saved(one_desk):
    """Every lesson looked at has run and been saved; then the page is left and opened again."""
    for name in (lesson.values[0] for lesson in LESSONS if DEEP or not lesson.marks):
        if name not in one_desk.saved:
            one_desk.open(name)
    if one_desk.showing:
        one_desk.close()
    one_desk.page.reload()
    one_desk.page.wait_for_function("window.jupyterapp && jupyterapp.restored.then(() => true)", timeout=90_000)


@pytest.mark.parametrize("name", LESSONS)
def test_nothing_dead_stands_in_a_lesson_opened_again(name, saved, desk, lab):
    page = desk.page
    on_disk = (lab[1] / "lessons" / name).read_text(encoding="utf-8")
    assert "widget-view" not in on_disk and "widgets" not in json.loads(on_disk)["metadata"]
    desk.show(name)
    assert desk.dead() == []
    page.locator("[data-lesson] .jp-RenderedMarkdown").get_by_text("each time you come back").first.wait_for()
    cells = sum(cell["cell_type"] == "code" for cell in json.loads(on_disk)["cells"])
    for index in (cells - 1, cells // 2, 0):
        desk.run(index)
        assert desk.dead() == [], index
    if not name.startswith("02-"):
        return
    # The kernel restarted under the open page: what stood there is gone with it, and a cell wakes up again.
    page.evaluate("async () => { await panel.sessionContext.session.kernel.restart() }")
    page.wait_for_timeout(1000)
    assert desk.dead() == []
    desk.run(cells - 1)
    assert desk.dead() == []


def test_the_right_answer_stands_there_again_and_not_the_wrong_one_after_it(desk):
    page, cell = desk.page, 'benches.exercise("05.highest-reading")'
    desk.show("05-keeping.ipynb")
    desk.run(cell)
    right = case(exercise("05.highest-reading")).answer
    box = page.get_by_label("Your answer, a plain number")
    check = page.get_by_role("button", name="Check", exact=True)
    for answer, says in ((right, r"^Right"), ("0.5", r"^Not yet"), ("", r"box is empty")):
        box.fill(answer)
        check.click()
        page.locator(".jp-OutputArea-output").get_by_text(re.compile(says)).first.wait_for(timeout=20_000)
    desk.close()
    desk.show("05-keeping.ipynb")
    desk.run(cell)
    assert box.input_value() == right
    page.get_by_text(re.compile(r"^Your answer of \d{4}-\d\d-\d\d\. Right")).first.wait_for(timeout=20_000)
