"""The page on a class and the page on a student: under axe, on a telephone, and on both papers nothing sticks out."""

import sys
from pathlib import Path

import pytest

from pastrylab.desk.marked import mark_folder

axe = pytest.importorskip("axe_playwright_python.base")
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "marking"))
from lines_handed_in import line, right  # noqa: E402

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

SECTIONS = ("A", "Monday morning, second kitchen, " + "W" * 60)
_OUT = """() => [...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1)
    .map(e => e.outerHTML.slice(0, 80))"""


@pytest.mark.parametrize("name", ["class.html", "students/17.html"])
def test_read_by_everybody(chromium, tmp_path, name):
    roll = ["number,name,section"]
    for number in range(15, 21):
        folder = tmp_path / "in" / str(number)
        folder.mkdir(parents=True)
        who = str(number)
        at = f"2026-10-05T10:{number}:{{:02}}+00:00".format
        typed = [line(who, "9" * 200 + " g", at(0)), line(who, "honey", at(9)), line(who, "1 g", at(20))]
        typed += [line(who, right(who), at(40))] if number % 2 else [line(who, "2 g", at(40)), line(who, "3 g", at(50))]
        typed += [line("", "360 g", at(55), "08.as-purchased"), line("", "B", at(58), "01.a-slip-of-the-hand")]
        (folder / "01.jsonl").write_text("\n".join(typed) + "\n", encoding="utf-8")
        roll.append(f"{number},{'N' * 90},{SECTIONS[number % 2]}")
    (tmp_path / "list.csv").write_text("\n".join(roll) + "\n", encoding="utf-8")
    mark_folder(tmp_path / "in", tmp_path / "list.csv", tmp_path / "marks", explain=["17"])
    page = chromium.new_page()
    page.goto((tmp_path / "marks" / name).as_uri())
    page.evaluate(axe.AXE_SCRIPT)
    found = page.evaluate("async () => (await axe.run()).violations.map(one => one.id)")
    wide = {}
    for width in (
        390,
        1400,
        688,
        710,
    ):  # a telephone, a desk, and in CSS pixels what lies inside the margins of A4 and letter
        page.emulate_media(media="print" if width in (688, 710) else "screen")
        page.set_viewport_size({"width": width, "height": 900})
        if out := page.evaluate(_OUT):
            wide[width] = out[:2]
    page.close()
    assert found == [] and wide == {}
