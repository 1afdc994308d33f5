"""What is a reader's own is kept by name, found again, and never half written."""

import os

import pytest

from pastrylab.ground import kitchen
from pastrylab.ground.units import StudentError


def test_what_is_kept_is_found_again_under_any_capitals(own_workbook):
    path = kitchen.put("formulas", "Dark  truffle", "ingredient,amount\ncrème fraîche,40 g\n")
    assert path == own_workbook / "lessons" / "my-kitchen" / "formulas" / "Dark truffle.csv"
    assert kitchen.get("formulas", "dark truffle") == "ingredient,amount\ncrème fraîche,40 g\n"
    kitchen.put("formulas", "DARK TRUFFLE", "new")
    assert list(kitchen.kept("formulas")) == ["Dark truffle"]
    assert kitchen.get("formulas", "Dark truffle") == "new"
    kitchen.remove("formulas", "dark truffle")
    assert kitchen.kept("formulas") == {} and list(path.parent.iterdir()) == []


@pytest.mark.parametrize(
    "name",
    [
        "",
        "   ",
        "a/b",
        "..",
        "../up",
        "a\\b",
        "CON",
        "nul.txt",
        "what?",
        "x" * 61,
        "a\x00b",
        ".hidden",
        "dot.",
        "=1+1",
        "@sum",
        "-5",
    ],
)
def test_a_name_no_file_can_bear_is_refused(own_workbook, name):
    with pytest.raises(StudentError):
        kitchen.put("formulas", name, "text")
    assert not (own_workbook / "lessons" / "my-kitchen").exists()


@pytest.mark.parametrize("name", ["Grüße 64 %", "bowl 3, Friday", "raspberry & lime", "Ana's (2nd)", "黒い", "contest"])
def test_a_cooks_name_is_kept_as_it_is(own_workbook, name):
    kitchen.put("logs", name, "0, 45\n")
    assert list(kitchen.kept("logs")) == [name]


def test_a_file_saved_by_a_spreadsheet_is_read_and_no_other_shelf_or_ending_is(own_workbook):
    kitchen.put("formulas", "one", "a\n").write_bytes(b"\xef\xbb\xbfhoney;40 g\r\n")
    assert kitchen.get("formulas", "one") == "honey;40 g\r\n"
    kitchen.put("logs", "one", "b", ending="txt")
    assert kitchen.kept("logs") == {} and list(kitchen.kept("logs", "txt")) == ["one"]
    with pytest.raises(StudentError, match="one"):
        kitchen.get("formulas", "two")


def test_what_is_no_text_and_a_folder_that_takes_nothing_are_said_in_words(own_workbook):
    kitchen.put("formulas", "one", "a").write_bytes(b"\xff\xfe\x00")
    with pytest.raises(StudentError, match="UTF-8"):
        kitchen.get("formulas", "one")
    (own_workbook / "lessons" / "my-kitchen" / "readings").write_text("a file where the folder belongs")
    with pytest.raises(StudentError, match="written"):
        kitchen.put("readings", "one", "a")
    assert kitchen.kept("readings") == {}


def test_a_write_that_breaks_off_leaves_what_stood_there(own_workbook, monkeypatch):
    kitchen.put("formulas", "one", "whole")

    def broken(*_):
        raise OSError(28, "no space left")

    monkeypatch.setattr(os, "replace", broken)
    with pytest.raises(StudentError, match="no space"):
        kitchen.put("formulas", "one", "half")
    assert kitchen.get("formulas", "one") == "whole"
    assert [path.name for path in (own_workbook / "lessons" / "my-kitchen" / "formulas").iterdir()] == ["one.csv"]


def test_two_million_bytes_are_the_most(own_workbook):
    """A letter with an accent is two bytes."""
    path = kitchen.put("logs", "one", "é" * 1_000_000)
    assert len(kitchen.get("logs", "one")) == 1_000_000
    with pytest.raises(StudentError, match=r"a text of 1,000,001 letters\. Needed: one of at most 2,000,000"):
        kitchen.put("logs", "one", "é" * 1_000_001)
    path.write_bytes(b"e" * 2_000_001)
    with pytest.raises(StudentError, match="cannot be read as text"):
        kitchen.get("logs", "one")


def test_sixty_letters_are_the_most_and_one_is_enough(own_workbook):
    assert kitchen.thing_named("x" * 60) == "x" * 60 and kitchen.thing_named("x") == "x"
    with pytest.raises(StudentError, match="at most 60"):
        kitchen.thing_named("x" * 61)


def test_a_hidden_file_is_no_thing(own_workbook):
    path = kitchen.put("logs", "one", "a")
    path.with_name(".hidden.csv").write_text("a")
    (path.parent / "folder.csv").mkdir()
    assert list(kitchen.kept("logs")) == ["one"]


@pytest.mark.parametrize(("error", "said"), [(OSError(13, "locked"), "locked"), (OSError("odd disk"), "odd disk")])
def test_why_a_file_cannot_be_removed_or_written_is_said(own_workbook, monkeypatch, error, said):
    path = kitchen.put("logs", "one", "a")

    def refuses(*_, **__):
        raise error

    monkeypatch.setattr(os, "replace", refuses)
    with pytest.raises(StudentError, match=rf"{path.parent.name}: {said}\)"):
        kitchen.put("logs", "one", "b")
    monkeypatch.setattr(type(path), "unlink", refuses)
    with pytest.raises(StudentError, match=rf"one\.csv: {said}\)"):
        kitchen.remove("logs", "one")


def test_what_was_never_kept_is_removed_without_a_word(own_workbook):
    kitchen.remove("logs", "never")
    with pytest.raises(StudentError, match="one of nothing yet"):
        kitchen.get("logs", "never")
