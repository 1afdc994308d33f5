"""The page `pastrylab open` opens: a lesson on all of the screen, small or large, and a way from lesson to lesson."""

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]

_WIDTHS = """() => ({lesson: [...document.querySelectorAll('.jp-NotebookPanel')].filter(e => e.offsetParent)
    .map(e => Math.round(e.getBoundingClientRect().width)), list: !!document.querySelector('#jp-left-stack')?.offsetParent})"""


@pytest.fixture(params=[(390, 844), (1400, 900)], ids=["390 px", "1400 px"])
def opened(request, chromium, lab):
    width, height = request.param
    context = chromium.new_context(viewport={"width": width, "height": height})
    page = context.new_page()
    page.complaints = []
    page.on("console", lambda m: page.complaints.append(m.text) if m.type == "error" else None)
    page.goto(lab[0])
    page.locator(".jp-Notebook .jp-MarkdownOutput h1").first.wait_for(timeout=90_000)
    yield page, width
    context.close()


def test_a_lesson_has_the_screen_and_its_links_lead_on(opened):
    page, width = opened
    assert page.evaluate(_WIDTHS) == {"lesson": [width - 33], "list": False}, "33 px: the bar of symbols at the left"
    page.locator(".jp-MarkdownOutput a[href*='01-weigh']").first.click()
    page.locator("h1").get_by_text("Weigh, convert, scale").wait_for()
    page.wait_for_url("**/doc/tree/lessons/01-weigh-convert-scale.ipynb")
    assert page.evaluate(_WIDTHS) == {"lesson": [width - 33], "list": False}
    # A reload stays with the lesson; the list of lessons is one press away, and goes again.
    page.reload()
    page.locator("h1").get_by_text("Weigh, convert, scale").wait_for(timeout=90_000)
    symbol = page.locator(".jp-SideBar.jp-mod-left [data-id=filebrowser]")
    symbol.click()
    page.locator(".jp-DirListing-item").get_by_text("03-ganache-emulsion.ipynb").dblclick()
    page.locator("h1").get_by_text("Ganache").first.wait_for()
    symbol.click()
    page.wait_for_function(f"() => ({_WIDTHS})().lesson[0] === {width - 33}")
    assert not [text for text in page.complaints if "plugin" in text.lower()]
