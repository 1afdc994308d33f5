"""A log is pasted, kept, and there again after the kernel has been restarted: in a real browser, without a line of code."""

import re

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

LOG = "time, temperature F\n9:00, 115\n9:05, 109\n9:10, 104\n9:15, 100\n9:20, 96\n9:25, 93\n"
_ADDED = """async () => {
    await panel.sessionContext.session.kernel.restart();
    await jupyterapp.commands.execute('notebook:run-all-cells');
}"""


def test_a_pasted_log_is_kept_and_opened_after_a_restart(desk, lab):
    _, workbook = lab
    desk.open("02b-hold-and-read.ipynb")
    page = desk.page
    lesson = page.locator("[data-lesson]")
    lesson.get_by_label("Paste a log").last.fill(LOG)
    lesson.get_by_label("Keep it as").last.fill("bowl of Friday")
    lesson.get_by_role("button", name="Keep", exact=True).last.click()
    lesson.get_by_text(re.compile("^Kept as bowl of Friday")).last.wait_for(timeout=20_000)
    kept = workbook / "lessons" / "my-kitchen" / "logs" / "bowl of Friday.csv"
    assert kept.read_text(encoding="utf-8") == LOG
    page.evaluate(_ADDED)
    page.wait_for_function(
        "() => [...panel.node.querySelectorAll('textarea')].some(one => one.placeholder.includes('9:15')) && "
        "[...panel.node.querySelectorAll('textarea')].every(one => !one.value.includes('115'))",
        timeout=60_000,
    )
    assert lesson.get_by_label("Paste a log").last.input_value() == ""
    lesson.get_by_role("button", name="Open", exact=True).last.click()
    lesson.get_by_text("Opened: bowl of Friday.").last.wait_for(timeout=20_000)
    assert lesson.get_by_label("Paste a log").last.input_value() == LOG
    lesson.get_by_alt_text(re.compile("6 readings over 25 minutes")).last.wait_for(timeout=20_000)
