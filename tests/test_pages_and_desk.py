"""The doors beside `pastrylab open`: the instructor's desk, and the lessons as pages."""

import pytest

from pastrylab.desk import commands, lab, workbook


def test_pages_without_what_shows_them_are_refused_in_words(monkeypatch, tmp_path, capsys):
    found = lab.importlib.util.find_spec
    monkeypatch.setattr(lab.importlib.util, "find_spec", lambda name: None if name == "voila" else found(name))
    monkeypatch.setattr(workbook, "prepare", lambda *_: tmp_path)
    assert commands.main(["pages"]) == 2
    assert "a Python without Voilà" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("command", "page"),
    [("desk", "/doc/tree/lessons/instructor-desk.ipynb"), ("pages", "/voila/render/lessons/00-start-here.ipynb")],
)
def test_each_door_opens_its_page(monkeypatch, tmp_path, command, page):
    asked = []
    (tmp_path / "lessons").mkdir()
    for name in ("00-start-here", "instructor-desk"):
        (tmp_path / "lessons" / f"{name}.ipynb").write_text("{}")
    monkeypatch.setattr(workbook, "prepare", lambda *_: tmp_path)
    monkeypatch.setattr(lab, "_run_until_stopped", lambda command, *_: asked.extend(command) or 0)
    assert commands.main([command, "--no-browser"]) == 0
    assert f"--LabApp.default_url={page}" in asked
