"""The page `pastrylab open` opens: a lesson on all of the screen, small or large, and a way from lesson to lesson."""

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]

_WIDTHS = """() => ({lesson: [...document.querySelectorAll('.jp-NotebookPanel')].filter(e => e.offsetParent)
    .map(e => Math.round(e.getBoundingClientRect().width)), list: !!document.querySelector('#jp-left-stack')?.offsetParent})"""


@pytest.fixture(
    params=[
        pytest.param((390, 844), id="390 px"),
        pytest.param((1400, 900), id="1400 px", marks=pytest.mark.deep),
    ]
)
def opened(request, page, lab):
    width, height = request.param
    page.set_viewport_size({"width": width, "height": height})
    page.goto(lab[0])
    page.locator(".jp-Notebook .jp-MarkdownOutput h1").first.wait_for(timeout=90_000)
    return page, width


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


# Of one page that has run: pictures as (pixels of the file, pixels shown), what scrolls sideways, boxes that cut their text.
_BENCHES = """() => {
    const shown = [...document.querySelectorAll('.jp-OutputArea-output *')].filter(e => e.offsetParent);
    const name = e => `${e.className} ${(e.textContent || e.value || '').slice(0, 40)}`;
    return {pictures: shown.filter(e => e.matches('.pastrylab-picture img')).map(e => [e.naturalWidth, e.clientWidth]),
        scrolls: shown.filter(e => /auto|scroll/.test(getComputedStyle(e).overflowX)
            && e.scrollWidth > e.clientWidth + 1 && !e.querySelector(':scope > table') && !e.matches('textarea')).map(name),
        cut: shown.filter(e => e.matches('input[type=text]') && e.value && e.scrollWidth > e.clientWidth + 1).map(name)};
}"""


@pytest.mark.parametrize(
    "lesson", ["01-weigh-convert-scale", pytest.param("08-cost-and-price", marks=pytest.mark.deep)]
)
def test_benches_are_made_for_a_telephone_and_again_for_a_desk(desk, lesson):
    page = desk.page
    page.evaluate("() => { jupyterapp.shell.collapseLeft(); jupyterapp.shell.collapseRight() }")
    desk.show(f"{lesson}.ipynb", 390, 844)
    page.evaluate("async () => { await jupyterapp.commands.execute('notebook:run-all-cells') }")
    every = "all => all.length > 1 && all.every(([file, shown]) => file === 648 && shown >= 300)"
    page.wait_for_function(f"() => ({every})(({_BENCHES})().pictures)", timeout=60_000)
    found = page.evaluate(_BENCHES)
    assert found["scrolls"] == [] and found["cut"] == [], found
    # As lesson 00 says: run without going on, and Tab leads into the bench that was run.
    page.evaluate(
        """() => { const one = jupyterapp.shell.currentWidget.content, cells = [...one.model.cells];
            one.activeCellIndex = cells.findIndex(cell => cell.sharedModel.getSource().includes('_bench()'));
            one.mode = 'command'; one.activate() }"""
    )
    page.keyboard.press("Control+Enter")
    page.wait_for_function(f"() => ({every})(({_BENCHES})().pictures)", timeout=60_000)
    page.keyboard.press("Tab")
    assert page.evaluate(
        "() => document.activeElement.closest('.jp-OutputArea-output') && "
        "document.activeElement.closest('.jp-Cell').classList.contains('jp-mod-active')"
    )
    page.set_viewport_size({"width": 1400, "height": 900})
    first = page.locator(".pastrylab-picture img").first
    page.locator(".pastrylab-picture").first.evaluate("place => place.scrollIntoView()")
    page.wait_for_function("() => document.querySelector('.pastrylab-picture img').naturalWidth === 720")
    assert first.bounding_box()["width"] == 720
