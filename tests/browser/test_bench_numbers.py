"""A bench's numbers in a real browser: units switched while the kernel is busy, amounts typed as a cook writes them."""

import re

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

_BUSY = """async seconds => {
    const kernel = panel.sessionContext.session.kernel;
    kernel.requestExecute({code: `__import__('time').sleep(${seconds})`, silent: true, store_history: false});
}"""
# Typed and entered in one go: an answer to an earlier text, come between the two, would be what is entered.
_ENTER = """(box, text) => {
    box.value = text;
    box.dispatchEvent(new Event('change', {bubbles: true}));
}"""
_IDLE = """async () => {
    await panel.sessionContext.session.kernel.requestExecute({code: '', silent: true, store_history: false}).done;
}"""


def test_switching_units_on_a_busy_kernel_moves_nothing(desk):
    desk.open("05-keeping.ipynb")
    page = desk.page
    bench = page.locator("[data-lesson] .jp-OutputArea-output").filter(has_text="Invert syrup (").first
    bench.scroll_into_view_if_needed()
    switch = {system: bench.get_by_role("button", name=re.compile(system)) for system in ("US", "metric")}

    def shown():
        page.evaluate(_IDLE)
        page.evaluate(_IDLE)
        page.wait_for_timeout(200)
        boxes = [(box.input_value()) for box in bench.locator("input[type=text]").all()]
        handles = [handle.get_attribute("aria-valuenow") for handle in bench.get_by_role("slider").all()]
        return boxes, handles, bench.locator("img").first.get_attribute("alt")

    opened = shown()
    assert "35" in opened[0]
    for turn in range(25):
        if turn % 3 == 0:
            page.evaluate(_BUSY, 0.4)
        switch["US"].click()
        switch["metric"].click()
    assert shown() == opened

    def typed(label, text):
        box = bench.get_by_label(re.compile(f"^{re.escape(label)} "))
        box.fill(text)
        box.press("Enter")
        page.evaluate(_IDLE)
        return box

    typed("Invert syrup", "1,5 oz")
    assert "42.52" in shown()[0]
    before = shown()
    assert before[2] != opened[2]
    box = typed("Invert syrup", "9000")
    bench.get_by_text("Needed: from 0 to 150 g. The page keeps 42.52 g.").wait_for()
    assert shown()[1:] == before[1:] and box.input_value() == "9000"
    switch["US"].click()
    bench.get_by_text("The page keeps").wait_for(state="detached")
    assert bench.get_by_label("Invert syrup (oz)").input_value() == "1.5"
    switch["metric"].click()
    assert shown() == before

    # Typed one after the other while the kernel is busy, the last one counts and stands there.
    page.evaluate(_BUSY, 1)
    typed_last = bench.get_by_label(re.compile(r"^Invert syrup "))
    for text in ("31,5", "0.5 kg", "30"):
        typed_last.evaluate(_ENTER, text)
    for _ in range(50):  # widgets have a thread of their own: an idle kernel may still owe the page an answer
        if shown() and typed_last.input_value() == "30":
            break
    assert typed_last.input_value() == "30"
    bench.get_by_role("slider").nth(2).focus()
    page.keyboard.press("ArrowRight")
    shown()
    assert typed_last.input_value() == "35" and shown() == opened
