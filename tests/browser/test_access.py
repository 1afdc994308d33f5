"""Every lesson for everybody: names for a screen reader, contrast, a narrow screen, a page at twice its size."""

import json

import nbformat
import pytest
from axe_playwright_python.base import AXE_SCRIPT
from depth import lessons_in_a_browser
from nbconvert import HTMLExporter

from pastrylab.page.parts import LOOKS, text_html

pytestmark = [pytest.mark.browser, pytest.mark.slow]

# What we wrote, as JupyterLab shows it. Its own prompts, toolbars and code editors are not ours to mend.
OURS = {
    "include": [["[data-lesson] .jp-MarkdownOutput"], ["[data-lesson] .jp-OutputArea-output"]],
    "exclude": [[".cm-editor"]],
}
# (rule, what the element's HTML holds): why it is allowed. An entry that nothing needs any more is a failure.
ALLOWED = {
    ("aria-input-field-name", 'class="noUi-handle'): "ipywidgets gives a slider's handle no name, and takes none from "
    "us; every slider stands under a labelled box for the same number",
}
_OPEN_ALL = """async () => {
    const has = () => [...panel.node.querySelectorAll('.widget-html-content b')]
        .filter(b => b.textContent === 'Worked solution').length;
    const buttons = name => [...panel.node.querySelectorAll('button')].filter(b => b.textContent.trim() === name);
    panel.node.querySelectorAll('details').forEach(one => one.open = true);
    for (const button of [...buttons('Hint'), ...buttons('Worked solution')]) button.click();
    for (let i = 0; i < 200 && has() < buttons('Worked solution').length; i++) await new Promise(r => setTimeout(r, 50));
    return has() === buttons('Worked solution').length;
}"""
# What sticks out, is cut off or has shrunk to nothing. A table may scroll in a box of its own.
_CRAMPED = """() => {
    const found = [];
    const say = (what, e) => found.push(`${what}: ${e.className} '${(e.textContent || e.value || '').trim().slice(0, 60)}'`);
    const scrolls = (e, box) => {
        for (let p = e.parentElement; p; p = p.parentElement) {
            if (/auto|scroll/.test(getComputedStyle(p).overflowX)) return p.getBoundingClientRect().right <= box.right + 1;
            if (p.classList.contains('jp-Cell')) return false;
        }
    };
    for (const output of panel.node.querySelectorAll('.jp-MarkdownOutput, .jp-OutputArea-output')) {
        const box = output.getBoundingClientRect();
        const out = r => r.width > 0 && (r.right > box.right + 1 || r.left < box.left - 1);
        for (const e of output.querySelectorAll('*:not(.noUi-origin):not(table *):not(.anchor-link)'))
            if (out(e.getBoundingClientRect()) && !(e.matches('table') && scrolls(e, box))) say('sticks out', e);
        const texts = document.createTreeWalker(output, NodeFilter.SHOW_TEXT);
        const range = document.createRange();
        for (let t = texts.nextNode(); t; t = texts.nextNode()) {
            if (!t.textContent.trim() || t.parentElement.closest('table, style, pre, .anchor-link')) continue;
            range.selectNodeContents(t);
            if ([...range.getClientRects()].some(out)) say('text sticks out', t.parentElement);
        }
        for (const e of output.querySelectorAll('.widget-label, button'))
            if (e.offsetParent && e.textContent.trim()
                && (e.getBoundingClientRect().width < 10 || (e.clientWidth && e.scrollWidth > e.clientWidth + 1)))
                say('label cut off', e);
        for (const e of output.querySelectorAll('input:not([type=file]):not([type=checkbox]), select, textarea'))
            if (e.offsetParent && (e.clientWidth < (e.type === 'text' ? 110 : 36)
                || (e.matches('input') && e.value && e.scrollWidth > e.clientWidth + 1))) say('box too small', e);
        for (const e of output.querySelectorAll('img'))
            if (e.offsetParent && (e.clientWidth < (e.closest('table') ? 150 : 200) || e.clientHeight < 80)) say('picture too small', e);
    }
    return found;
}"""


@pytest.fixture(scope="module", params=lessons_in_a_browser())
def name(request):
    return request.param


@pytest.fixture
def lesson(name, one_desk):
    """A lesson that has run, with every hint, worked solution and fold open: for all tests on it that come in a row."""
    if one_desk.showing != f"{name}, all open":
        one_desk.open(name)
        assert one_desk.page.evaluate(_OPEN_ALL), "a worked solution does not open"
        one_desk.showing = f"{name}, all open"
    one_desk.page.set_viewport_size({"width": 1280, "height": 1000})
    return one_desk.page


def axe(page, where, options):
    if not page.evaluate("!!window.axe"):
        page.evaluate(AXE_SCRIPT)
    return page.evaluate("async ([where, options]) => await axe.run(where, options)", [where, options])


def test_axe_finds_nothing_that_is_ours(lesson):
    page = lesson
    result = axe(page, OURS, {"resultTypes": ["violations"]})
    found = [(rule["id"], node["html"]) for rule in result["violations"] for node in rule["nodes"]]
    assert len(result["passes"]) >= 10, "axe looked at next to nothing"
    excuse = {key: [f for f in found if f[0] == key[0] and key[1] in f[1]] for key in ALLOWED}
    others = [f"{rule}: {node}" for rule, node in found if not any((rule, node) in one for one in excuse.values())]
    assert "\n".join(others) == ""
    sliders = page.locator("[data-lesson] [role=slider]:visible").count()  # a step nobody opened shows none
    handles = excuse["aria-input-field-name", 'class="noUi-handle']
    assert len(handles) == sliders, "a slider's handle has a name now: strike the entry from ALLOWED"
    boxes = page.locator("[data-lesson] .widget-vbox:has(> .widget-hslider) > .widget-text input:visible").count()
    assert boxes == sliders, "a slider without a labelled box for its number"


@pytest.mark.parametrize(
    ("width", "height"), [(390, 844), (640, 500)], ids=["390 px", "1280 px at 200 %, which leaves 640"]
)
def test_nothing_sticks_out_or_is_cut_off(lesson, width, height):
    page = lesson
    # A lesson opens with the list of files folded away.
    page.evaluate("() => { jupyterapp.shell.collapseLeft(); jupyterapp.shell.collapseRight() }")
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_function(
        """width => { const r = panel.node.getBoundingClientRect(); return r.width <= width && r.width > 0.7 * width }""",
        arg=width,
    )
    page.evaluate("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))")
    assert "\n".join(page.evaluate(_CRAMPED)) == ""


@pytest.fixture(scope="module")
def offline(chromium):
    """A page that cannot reach the internet, as in a class without it."""
    context = chromium.new_context(viewport={"width": 1280, "height": 1000})
    context.route("**/*", lambda route: route.abort())
    yield context.new_page()
    context.close()


def test_contrast_of_the_printed_lesson_and_of_what_its_widgets_say(lesson, offline):
    """axe cannot see colours inside JupyterLab's layers; it can in the HTML export, which lacks the widgets: they follow."""
    notebook = nbformat.from_dict(json.loads(lesson.evaluate("() => JSON.stringify(panel.context.model.toJSON())")))
    notebook.metadata.pop("widgets", None)
    body, _ = HTMLExporter(template_name="lab", theme="light").from_notebook_node(notebook)
    said = lesson.evaluate("() => [...panel.node.querySelectorAll('.widget-html-content')].map(one => one.innerHTML)")
    said += [text_html("Right, or not yet: look again.", look) for look in LOOKS]
    offline.set_content(body.replace("</main>", f"<div id='said'>{''.join(said)}</div></main>"), wait_until="commit")
    offline.locator("#said").wait_for()
    offline.evaluate("() => document.querySelectorAll('details').forEach(one => one.open = true)")
    # The colours of code are nbconvert's, those of the paragraph sign too.
    where = {
        "include": [[".jp-MarkdownOutput"], [".jp-OutputArea-output"], ["#said"]],
        "exclude": [[".highlight"], [".anchor-link"]],
    }
    result = axe(offline, where, {"runOnly": ["color-contrast"]})
    assert sum(len(rule["nodes"]) for rule in result["passes"]) > 30, "axe saw next to no text"
    assert [(n["html"], n["any"][0]["message"]) for rule in result["violations"] for n in rule["nodes"]] == []
