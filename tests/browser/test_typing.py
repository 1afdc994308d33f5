"""What is graded is what the box held when Check or Enter was pressed, however busy the kernel is."""

import json
import random
import re

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

# A thread that lets go of the interpreter only now and then: the kernel answers late, and at uneven times.
_BUSY = """import threading, time
stop = threading.Event()
def work():
    until = time.monotonic() + 0.12
    while not stop.is_set():
        if time.monotonic() > until:
            time.sleep(0.03)
            until = time.monotonic() + 0.12
        sum(range(20_000))
workers = [threading.Thread(target=work, daemon=True) for _ in range(2)]
for one in workers: one.start()
"""
_ASK_KERNEL = """async code => {
    const panel = jupyterapp.shell.currentWidget;
    await panel.sessionContext.session.kernel.requestExecute({code, silent: true}).done;
}"""


def test_fast_entries_at_a_busy_kernel_are_graded_whole(open_lesson, lab):
    page = open_lesson("02-tempering.ipynb", "Your answer, with its unit")
    _, workbook = lab
    file = workbook / "lessons" / "my-answers" / "02.jsonl"
    box = page.get_by_label("Your answer, with its unit").nth(2)
    check = page.get_by_role("button", name="Check", exact=True).nth(2)
    box.fill("1 g")
    check.click()
    page.get_by_text(re.compile("^Not yet")).first.wait_for()
    page.evaluate(_ASK_KERNEL, _BUSY)
    dice, typed = random.Random(7), []
    before = len(file.read_text(encoding="utf-8").splitlines())
    for number in range(200):
        text = f"{number + 1}.{dice.randint(1, 99)} {dice.choice(['g', 'kg', 'lb', 'oz'])}"
        box.click(click_count=3)
        page.keyboard.type(text, delay=dice.choice([0, 0, 2, 5]))
        if dice.random() < 0.5:
            page.keyboard.press("Enter")
        else:
            check.click()
        typed.append(text)
        # As a person does, wait for the verdict on this answer, not a moment longer.
        for _ in range(2000):
            lines = file.read_bytes().count(b"\n")
            if lines >= before + len(typed):
                break
            page.wait_for_timeout(5)
    page.evaluate(_ASK_KERNEL, "stop.set()")  # or it takes a processor to the end of the run
    kept = [json.loads(line)["answer"] for line in file.read_text(encoding="utf-8").splitlines()[before:]]
    assert [pair for pair in zip(typed, kept, strict=False) if pair[0] != pair[1]] == []
    assert len(kept) == len(typed)


def test_a_lesson_open_in_two_windows_grades_what_stands_in_the_one_that_pressed(open_lesson, lab):
    """Both windows hear of every press, and the other one may answer first, with another text in its box."""
    first = open_lesson("01-weigh-convert-scale.ipynb", "Your answer (a letter)")
    page = first.context.new_page()
    page.goto(re.sub(r"/doc/tree/[^?]*", "/lab/workspaces/second/tree/lessons/01-weigh-convert-scale.ipynb", lab[0]))
    page.locator("#jp-main-statusbar").get_by_text(re.compile(r"Python 3.*\| Idle")).first.wait_for(timeout=90_000)
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    page.get_by_label("Your answer (a letter)").last.wait_for(timeout=120_000)
    box = page.get_by_label("Your answer, with its unit").first
    check = page.get_by_role("button", name="Check", exact=True).first
    file = lab[1] / "lessons" / "my-answers" / "01.jsonl"
    before = len(file.read_text(encoding="utf-8").splitlines()) if file.exists() else 0
    typed = [f"{number}.5 kg" for number in range(11, 21)]
    for done, text in enumerate(typed, start=1):
        box.fill(text)
        check.click()
        for _ in range(1000):
            if file.exists() and file.read_bytes().count(b"\n") >= before + done:
                break
            page.wait_for_timeout(10)
    kept = [json.loads(line)["answer"] for line in file.read_text(encoding="utf-8").splitlines()[before:]]
    assert kept == typed
    page.close()
