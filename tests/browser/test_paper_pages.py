"""Sheets as a browser prints them: one page is one page, on A4 and on US letter, and nothing sticks out."""

import re

import pytest
from depth import depth

from pastrylab.desk import paper

pytestmark = [pytest.mark.browser, pytest.mark.slow]

_OUT = "() => [...document.querySelectorAll('.page *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).length"


def test_each_sheet_of_every_lesson_is_one_page_on_both_papers(chromium, tmp_path):
    fullest = ("06", "09")
    paper.paper_of(depth(fullest, ()), tmp_path, benches="1")
    page = chromium.new_page()
    wrong = []
    for path in sorted(tmp_path.glob("*.html")):
        page.goto(path.as_uri())
        for paper_size, width in (("A4", 688), ("Letter", 710)):  # inside the margins, in CSS pixels
            found = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper_size)))
            page.set_viewport_size({"width": width, "height": 900})
            if found != 1 or page.evaluate(_OUT):
                wrong.append((path.name, paper_size, found))
    page.close()
    assert wrong == []


@pytest.mark.deep
def test_print_and_export_in_jupyterlab_give_the_questions_and_the_pictures(desk):
    desk.open("05-keeping.ipynb")
    page = desk.page
    # What stands on the page is the bench, not what is printed of it.
    assert (
        page.locator("[data-lesson] .widget-text").count() and page.get_by_label("Your answer, a plain number").count()
    )
    assert not page.locator("[data-lesson] .jp-OutputArea-output").get_by_text("____________").count()
    # File, Save and Export as HTML and File, Print both fetch this address.
    printed = page.evaluate(
        """async () => {
            const {baseUrl, token} = jupyterapp.serviceManager.serverSettings;
            const found = await fetch(`${baseUrl}nbconvert/html/lessons/05-keeping.ipynb?token=${token}`);
            return await found.text();
        }"""
    )
    assert "Your answer, a plain number: ____________" in printed and not re.search(r"\w+Card\(children", printed)
    assert printed.count("data:image/png;base64,") >= 3 and 'src="pictures/' not in printed
