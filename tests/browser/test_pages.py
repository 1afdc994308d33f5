"""A lesson as a page without code, as on a telephone: full width, controls and answers alive, nothing asked outside."""

import re
from pathlib import Path

import pytest

from pastrylab.course.catalogue import exercise
from pastrylab.desk import lab as lab_module
from pastrylab.school.engine import case

TEMPLATE = Path(lab_module.__file__).parent / "_lab" / "share" / "voila" / "templates" / "lesson" / "index.html.j2"

pytestmark = [pytest.mark.browser, pytest.mark.slow]


def test_a_lesson_on_a_telephone(lab, chromium):
    address, folder = lab
    base, token = re.match(r"(http://[^/]+)/.*token=(\w+)", address).groups()
    context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    asked, complaints = [], []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda said: complaints.append(said.text) if said.type == "error" else None)
    try:
        page.goto(f"{base}/voila/render/lessons/02-tempering.ipynb?token={token}")
        page.get_by_label("Your class number").last.wait_for(timeout=90_000)
        assert not [url for url in asked if not url.startswith((base, "data:", "blob:"))]
        assert page.locator(".jp-CodeCell .jp-Editor").count() == 0, "code"
        assert page.get_by_text("Run All Cells, in the menu").count() == 0
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        for which in (".jp-RenderedHTMLCommon p", "img"):  # a picture is drawn again for a page so narrow
            page.wait_for_function(f"document.querySelector('{which}')?.getBoundingClientRect().width >= 340")
        box = page.get_by_label("Melted chocolate (kg)").first
        box.fill("4")
        box.press("Enter")
        page.get_by_text(re.compile(r"Needs 1\.?16 kg|Needs 1156 g|Needs 1157 g")).first.wait_for(timeout=20_000)
        question = case(exercise("02.seed-for-a-bowl"))
        card = page.locator(".jp-OutputArea-output", has=page.get_by_text(exercise("02.seed-for-a-bowl").title))
        card.get_by_label("Your answer, with its unit").fill(question.answer.split(" (")[0])
        card.get_by_label("Your answer, with its unit").press("Enter")
        card.get_by_text(re.compile("^Right")).first.wait_for(timeout=20_000)
        assert "02.seed-for-a-bowl" in (folder / "lessons" / "my-answers" / "02.jsonl").read_text("utf-8")
        assert not complaints
        kernel = page.evaluate("JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId")
        page.wait_for_function("document.cookie.includes('_xsrf=')")  # asked for when the controls stand
        page.goto("about:blank")
        for _ in range(50):  # who leaves a page ends its kernel
            running = {one["id"] for one in context.request.get(f"{base}/api/kernels?token={token}").json()}
            if kernel not in running:
                break
            page.wait_for_timeout(100)
        assert kernel and kernel not in running
    finally:
        context.close()
        (folder / "lessons" / "my-answers" / "02.jsonl").unlink(missing_ok=True)


def test_a_page_without_controls_is_opened_once_more_and_no_oftener(chromium):
    (script,) = re.findall(r"<script>\s+addEventListener.*?</script>", TEMPLATE.read_text(encoding="utf-8"), re.DOTALL)
    context, opened = chromium.new_context(), []

    def served(route):
        opened.append(route.request.url)
        dead = "Error displaying widget: model not found" if route.request.url.endswith("dead") else "Right"
        box = "<input autofocus>" if "typed" in route.request.url else "<input>"
        body = f"<!doctype html>{script}<p>{dead}</p>{box}"
        route.fulfill(body=body, content_type="text/html")

    context.route("http://lesson.test/*", served)
    try:
        pages = [context.new_page() for _ in range(3)]
        for page, name in zip(pages, ("dead", "sound", "typed-in-dead"), strict=True):
            page.goto(f"http://lesson.test/{name}")
        pages[0].wait_for_timeout(2500)
        assert sorted(url.rpartition("/")[2] for url in opened) == ["dead", "dead", "sound", "typed-in-dead"]
    finally:
        context.close()
