"""Lesson 02 as a student meets it, without a mouse: from the first guess to a graded answer, the focus in sight all the way."""

import re

import pytest

from pastrylab.course.catalogue import exercise
from pastrylab.school.engine import case

pytestmark = [pytest.mark.browser, pytest.mark.slow]

# Notes how the element in focus looks, and whether it stands within the window; all are compared when focus has left.
_NOTE = """() => {
    const e = document.activeElement, r = e.getBoundingClientRect();
    window.walk = window.walk || [];
    const look = one => { const s = getComputedStyle(one);
        return [s.outlineStyle, s.outlineWidth, s.outlineColor, s.borderColor, s.boxShadow, s.backgroundColor].join(' ') };
    window.looked = look;
    const name = [e.tagName, e.className, (e.textContent || '').trim().slice(0, 30)].join(' ');
    window.walk.push({e, look: look(e), name, inside: r.bottom > 0 && r.top < innerHeight && r.width > 0});
    const box = e.closest('.jupyter-widgets')?.querySelector('.widget-label');
    return {tag: e.tagName, text: (e.textContent || '').trim(), label: box ? box.textContent : '',
        role: e.getAttribute('role') || '', cell: !!e.closest('.jp-OutputArea-output, .jp-MarkdownOutput')};
}"""
_UNSEEN = """() => walk.filter(one => !one.inside
    || (one.e !== document.activeElement && one.look === looked(one.e))).map(one => one.name)"""


def test_a_guess_a_bench_and_an_exercise_by_keyboard_alone(desk, no_answers, lab):
    desk.open("02-tempering.ipynb", by_menu=True)
    page, keys = desk.page, desk.page.keyboard

    def says(pattern):
        page.locator("[data-lesson] .jp-OutputArea-output").get_by_text(re.compile(pattern)).first.wait_for()

    def on(until, key="Tab", most=80):
        for _ in range(most):
            keys.press(key)
            here = page.evaluate(_NOTE)
            assert here["cell"], f"{key} led out of the lesson to {here}"
            if until(here):
                return here
        raise AssertionError(f"{most} times {key} did not lead there; the focus is at {here}")

    says(r"Lesson 02 · pastrylab .* exercise values [0-9a-f]{8}")
    outputs = page.locator("[data-lesson] .jp-OutputArea-output")
    assert outputs.get_by_text(re.compile(r"^Right")).count() == 0, "an untouched lesson must not say 'right'"
    assert outputs.locator("img").count() and not outputs.locator("img:not([alt])").count()

    # JupyterLab puts its focus on the last cell a moment after all have run.
    guess = page.get_by_label("My guess").first
    guess.focus()
    page.wait_for_timeout(500)
    guess.focus()
    page.evaluate(_NOTE)
    keys.type("800 g")
    keys.press("Enter")
    says("Kept: 800 g")
    says("Needs 578 g of seed")
    on(lambda here: here["text"] == "Keep my guess")
    on(lambda here: here["label"].startswith("Melted chocolate"))
    on(lambda here: here["role"] == "slider")
    for _ in range(10):
        keys.press("ArrowRight")
    says("Needs 867 g of seed")
    says("For the bowl you were asked about you said 800 g, the sum says 578 g")
    outputs.locator('img[alt*="867 g of seed"]').first.wait_for()
    # back again, and a number typed
    on(lambda here: here["label"].startswith("Melted chocolate"), "Shift+Tab", most=1)
    keys.press("Control+a")
    keys.type("4")
    keys.press("Enter")
    says("Needs 1157 g of seed")

    seed = case(exercise("02.seed-for-a-bowl"))
    title = seed.exercise.title
    cards = page.locator("[data-lesson] .jp-OutputArea-output").filter(has_text=title)

    def at_the_exercise(here):
        inside = "(e => e.closest('.jp-OutputArea-output')?.textContent || '')(document.activeElement)"
        return here["label"].startswith("Your answer") and title in page.evaluate(inside)

    on(at_the_exercise)
    slip, wrong = seed.wrong[0]
    keys.type(seed.exercise.how.show(wrong).split(" (")[0])
    keys.press("Enter")
    cards.get_by_text(re.compile(r"^Not yet")).wait_for()
    cards.get_by_text(re.compile(re.escape(slip.says.split(",")[0]))).wait_for()
    on(lambda here: here["text"] == "Check", most=1)
    on(lambda here: here["text"] == "Hint", most=1)
    keys.press("Enter")
    cards.get_by_text(re.compile(r"^Hint:")).wait_for()
    on(lambda here: here["text"] == "Worked solution", most=1)
    on(at_the_exercise, "Shift+Tab", most=3)
    keys.press("Control+a")
    keys.type(seed.answer.split(" (")[0])
    keys.press("Enter")
    cards.get_by_text(re.compile(r"^Right")).wait_for()
    on(lambda here: here["text"] == "Check", most=1)
    assert page.evaluate(_UNSEEN) == [], "the focus could not be seen there"
    assert desk.complaints() == []
    assert (lab[1] / "lessons" / "my-answers" / "02.jsonl").is_file()
