"""Where the workbook lies: what makes a folder one, and which of two files is in force."""

import os

import pytest

from pastrylab.ground import files
from pastrylab.ground.datasets import COCOA_BUTTER
from pastrylab.ground.units import StudentError

OURS = '[project]\nname = "pastrylab"\n'
PARTS = ("lessons", "datasets", "datasets/exercise_values.csv")


def folder_of(where, *parts, project=None, manifest=False):
    where.mkdir(parents=True, exist_ok=True)
    for part in parts:
        path = where / part
        if path.suffix:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text("lesson\n")
        else:
            path.mkdir(parents=True, exist_ok=True)
    if project:
        (where / "pyproject.toml").write_text(project)
    if manifest:
        (where / files.MANIFEST).write_text("{}")
    return where


@pytest.mark.parametrize(
    ("parts", "project", "wanted"),
    [
        (("lessons", "datasets"), OURS, True),
        (("lessons",), OURS, False),
        (("datasets",), OURS, False),
        (("lessons", "datasets"), None, False),
        (("lessons", "datasets"), '[project]\nname = "another"\n', False),
        (("lessons", "datasets"), "[tool]\n", False),
        (("lessons", "datasets"), "no toml [", False),
    ],
)
def test_a_checkout_is_named_so_and_holds_both_folders(tmp_path, parts, project, wanted):
    assert files.is_checkout(folder_of(tmp_path, *parts, project=project)) is wanted


@pytest.mark.parametrize(
    ("parts", "project", "manifest", "wanted"),
    [
        (PARTS, None, False, True),
        ((), None, True, True),
        (("lessons", "datasets"), None, False, False),
        (("datasets", "datasets/exercise_values.csv"), None, False, False),
        (PARTS, OURS, False, False),
    ],
)
def test_a_working_copy_has_its_manifest_or_what_it_lists(tmp_path, parts, project, manifest, wanted):
    assert files.is_working_copy(folder_of(tmp_path, *parts, project=project, manifest=manifest)) is wanted


def test_the_nearest_workbook_above_is_meant_or_the_one_inside(tmp_path):
    outer = folder_of(tmp_path / "class", manifest=True)
    inner = folder_of(outer / "mine", manifest=True)
    deep = folder_of(inner / "lessons" / "one", "notes")
    assert files.locate(deep) == files.locate(inner) == inner and files.locate(outer) == outer
    home = tmp_path / "home"
    home.mkdir()
    assert files.locate(home) is None
    assert files.locate(home.parent / "home") is None
    below = folder_of(home / files.FOLDER_NAME, manifest=True)
    assert files.locate(home) == below


def test_the_workbooks_own_file_is_in_force_else_the_packaged_one(own_workbook):
    packaged = files.data_path("cocoa_butter.csv")
    assert packaged.parent == files.folder()
    assert len(files.load("cocoa_butter.csv", COCOA_BUTTER)) == 6
    own = folder_of(own_workbook, "datasets") / "datasets" / "cocoa_butter.csv"
    lines = packaged.read_text(encoding="utf-8").splitlines(keepends=True)
    own.write_text("".join(lines[:3]), encoding="utf-8")
    assert files.data_path("cocoa_butter.csv") == own and len(files.load("cocoa_butter.csv", COCOA_BUTTER)) == 2
    own.write_text("".join(lines[:4]), encoding="utf-8")
    assert len(files.load("cocoa_butter.csv", COCOA_BUTTER)) == 3
    with pytest.raises(StudentError, match="no file nothing.csv"):
        files.load("nothing.csv", COCOA_BUTTER)


def test_a_file_is_read_again_only_when_it_has_changed(tmp_path):
    path, asked = tmp_path / "one.csv", []

    @files.read_once
    def text(path, *more):
        asked.append(more)
        return path.read_text()

    path.write_text("one")
    os.utime(path, ns=(10**18, 10**18))
    assert text(path) == text(path) == "one" and len(asked) == 1
    path.write_text("two")
    os.utime(path, ns=(10**18 + 1000, 10**18 + 1000))
    assert text(path) == "two" and len(asked) == 2
    path.write_text("three")
    os.utime(path, ns=(10**18 + 1000, 10**18 + 1000))
    assert text(path) == "three" and text(path, "other") == "three" and asked[-1] == ("other",)


def test_within_one_look_the_disk_is_asked_once_and_after_it_again(tmp_path, monkeypatch):
    (tmp_path / "datasets").mkdir()
    table = tmp_path / "datasets" / "cocoa_butter.csv"
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))
    packaged = files.data_path(table.name)
    assert packaged != table
    with files.one_look():
        assert files.data_path(table.name) == packaged
        table.write_text("form\n")
        assert files.data_path(table.name) == packaged
        with files.one_look():
            assert files.data_path(table.name) == table
        assert files.data_path(table.name) == packaged
    assert files.data_path(table.name) == table


def test_what_one_look_could_not_find_is_raised_each_time():
    asked = []

    @files.looked_up
    def missing(name):
        asked.append(name)
        raise StudentError("nothing", "a file", "a name")

    with files.one_look():
        for _ in range(2):
            with pytest.raises(StudentError):
                missing("no.csv")
    assert asked == ["no.csv"] * 2
    with pytest.raises(ValueError), files.one_look():  # left by an error, it is left
        raise ValueError
    assert files._looked.get() is None


def test_the_students_folders_are_asked_on_a_classs_server_by_who_may_look_into_them(tmp_path, monkeypatch):
    monkeypatch.setenv("PASTRYLAB_STUDENTS", str(tmp_path))
    monkeypatch.delenv("PASTRYLAB_COURSE", raising=False)
    assert files.students() is None, "no course: a machine of one's own"
    monkeypatch.setenv("PASTRYLAB_COURSE", str(tmp_path / "course"))
    assert files.students() == tmp_path
    asked = []
    monkeypatch.setattr(files.os, "access", lambda path, mode: asked.append(mode))
    assert files.students() is None and asked == [5], "to list (4) and to enter (1): access(2)"
    monkeypatch.delenv("PASTRYLAB_STUDENTS")
    assert files.students() is None
