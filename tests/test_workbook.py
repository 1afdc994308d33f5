"""The working copy: what an upgrade replaces, keeps, restores and leaves; and the command line that opens it."""

import json
import os
import sys
import time
import types
from pathlib import Path

import pytest

from pastrylab import __main__ as command_line
from pastrylab.desk import lab, stale, workbook
from pastrylab.ground import files
from pastrylab.ground.units import StudentError

LESSON = "lessons/02-tempering.ipynb"
CSV = "datasets/exercise_values.csv"


def notebook(*sources, outputs=(), count=None, **metadata) -> bytes:
    cells = [
        {
            "cell_type": "code",
            "id": f"cell-{number}",
            "source": source,
            "outputs": list(outputs),
            "execution_count": count,
            "metadata": {},
        }
        for number, source in enumerate(sources)
    ]
    page = {"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}
    return json.dumps(page, indent=1).encode()


def tree(root: Path, holds: dict[str, bytes]) -> Path:
    for name in files.SHIPPED:
        (root / name).mkdir(parents=True, exist_ok=True)
    for name, data in holds.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_bytes(data)
    return root


def contents(root: Path) -> dict[str, bytes]:
    found = {path.relative_to(root).as_posix(): path.read_bytes() for path in root.rglob("*") if path.is_file()}
    found.pop(files.MANIFEST, None)
    return found


OLD = {
    LESSON: notebook("melt()", "cool()"),
    CSV: b"given,value\nbatch,2\n",
    "datasets/moulds.csv": b"mould\n",
}
NEW = {**OLD, LESSON: notebook("melt()", "cool()", "hold()"), CSV: b"given,value\nbatch,3\n"}


@pytest.fixture
def copy(tmp_path):
    """A working copy of OLD, and a function that upgrades it and returns what it did."""
    folder = tmp_path / "copy"

    def upgrade(files, version="0.2.0"):
        source = tree(tmp_path / f"shipped-{time.monotonic_ns()}", files)
        return [(change.path, change.action, change.beside) for change in workbook.update(source, folder, version)]

    assert {action for _, action, _ in upgrade(OLD, "0.1.0")} == {"added"}
    assert contents(folder) == OLD
    return folder, upgrade


# --- what an upgrade does -------------------------------------------------------------------------------


def test_a_second_run_of_the_same_version_changes_nothing(copy):
    folder, upgrade = copy
    before = {path: path.stat().st_mtime_ns for path in folder.rglob("*") if path.is_file()}
    assert upgrade(OLD, "0.1.0") == []
    assert {path: path.stat().st_mtime_ns for path in folder.rglob("*") if path.is_file()} == before


def test_untouched_files_are_replaced(copy):
    folder, upgrade = copy
    assert upgrade(NEW) == [(CSV, "updated", ""), (LESSON, "updated", "")]
    assert contents(folder) == NEW


def test_a_lesson_that_was_only_run_counts_as_untouched(copy):
    folder, upgrade = copy
    # What JupyterLab saves after a run: outputs, counts, widget state, and one empty cell at the end.
    ran = notebook("melt()", "cool()", "", outputs=[{"output_type": "stream"}], count=7, widgets={"state": {}})
    (folder / LESSON).write_bytes(ran)
    assert upgrade(OLD, "0.1.0") == []
    assert (folder / LESSON).read_bytes() == ran, "running again must not throw the outputs away"
    assert (LESSON, "updated", "") in upgrade(NEW)
    assert (folder / LESSON).read_bytes() == NEW[LESSON]


@pytest.mark.parametrize(
    ("name", "edited", "beside"),
    [
        (LESSON, notebook("melt()", "cool(slowly=True)"), "lessons/02-tempering.new-0.2.0.ipynb"),
        (CSV, b"given,value\nbatch,2.5\n", "datasets/exercise_values.new-0.2.0.csv"),
        (LESSON, b'{"cells": [', "lessons/02-tempering.new-0.2.0.ipynb"),
    ],
    ids=["a cell", "a value", "a torn notebook"],
)
def test_an_edited_file_is_kept_and_the_new_one_is_beside_it(copy, name, edited, beside):
    folder, upgrade = copy
    (folder / name).write_bytes(edited)
    assert upgrade(OLD, "0.1.0") == [(name, "kept", "")]
    assert (name, "beside", beside) in upgrade(NEW)
    assert (folder / name).read_bytes() == edited
    assert (folder / beside).read_bytes() == NEW[name]
    # Offered once: thrown away, it does not come back until another one is shipped.
    (folder / beside).unlink()
    assert upgrade(NEW) == [(name, "kept", "")]
    assert not (folder / beside).exists()
    newer = {**NEW, name: NEW[name].replace(b"batch", b"melt").replace(b"hold", b"rest")}
    assert [(path, action) for path, action, _ in upgrade(newer, "0.3.0")] == [(name, "beside")]
    assert (folder / name).read_bytes() == edited


def test_an_edited_copy_beside_is_not_overwritten(copy):
    folder, upgrade = copy
    (folder / CSV).write_bytes(b"mine\n")
    first = folder / "datasets/exercise_values.new-0.2.0.csv"
    first.write_bytes(b"notes of my own\n")
    assert (CSV, "beside", "datasets/exercise_values.new-0.2.0-2.csv") in upgrade(NEW)
    assert first.read_bytes() == b"notes of my own\n"


def test_taking_the_new_one_over_the_edited_one_makes_it_untouched_again(copy):
    folder, upgrade = copy
    (folder / LESSON).write_bytes(notebook("mine()"))
    upgrade(NEW)
    os.replace(folder / "lessons/02-tempering.new-0.2.0.ipynb", folder / LESSON)
    assert upgrade(NEW) == []
    assert upgrade(OLD, "0.3.0") == [(CSV, "updated", ""), (LESSON, "updated", "")]


def test_a_deleted_lesson_is_put_back_and_said(copy):
    folder, upgrade = copy
    (folder / LESSON).unlink()
    assert upgrade(OLD, "0.1.0") == [(LESSON, "restored", "")]
    assert (folder / LESSON).read_bytes() == OLD[LESSON]


def test_the_readers_own_files_are_never_touched(copy):
    folder, upgrade = copy
    own = {
        "lessons/my-answers/02-tempering.jsonl": b'{"answer": "485 g"}\n',
        "lessons/my notes.ipynb": notebook("1 + 1"),
        "datasets/my_log.csv": b"time,temperature\n",
        "shopping.txt": b"cream\n",
    }
    tree(folder, own)
    # A file of the reader's that a later version happens to ship under the same name is theirs all the same.
    shipped = {**NEW, "datasets/my_log.csv": b"shipped\n"}
    assert ("datasets/my_log.csv", "beside", "datasets/my_log.new-0.2.0.csv") in upgrade(shipped)
    after = contents(folder)
    assert {name: after[name] for name in own} == own


def test_a_file_no_longer_shipped_is_left_and_said_once(copy):
    folder, upgrade = copy
    fewer = {name: data for name, data in OLD.items() if name != LESSON}
    assert upgrade(fewer) == [(LESSON, "left", "")]
    assert (folder / LESSON).read_bytes() == OLD[LESSON]
    assert upgrade(fewer) == []
    assert upgrade(NEW, "0.3.0") == [(CSV, "updated", ""), (LESSON, "updated", "")]


@pytest.mark.parametrize(
    "torn", [None, b"", b'{"version": "0.1.0", "files": {', b"[]", b'{"files": 3}', b"\xff\xfe"], ids=repr
)
def test_without_a_readable_manifest_every_differing_file_counts_as_edited(copy, torn):
    folder, upgrade = copy
    manifest = folder / files.MANIFEST
    manifest.unlink() if torn is None else manifest.write_bytes(torn)
    assert [(path, action) for path, action, _ in upgrade(NEW)] == [(CSV, "beside"), (LESSON, "beside")]
    after = contents(folder)
    assert {name: after[name] for name in OLD} == OLD
    assert upgrade(NEW) == [(CSV, "kept", ""), (LESSON, "kept", "")]


def test_a_run_cut_short_leaves_whole_files_and_is_finished_by_the_next(copy, monkeypatch):
    folder, upgrade = copy
    replace, done = os.replace, []

    def cut(source, target):
        if done:
            raise KeyboardInterrupt
        done.append(target)
        replace(source, target)

    monkeypatch.setattr(workbook.os, "replace", cut)
    with pytest.raises(KeyboardInterrupt):
        upgrade(NEW)
    monkeypatch.undo()
    assert contents(folder) == {**OLD, LESSON: NEW[LESSON]}, "one file new, the others old, no part of a file anywhere"
    assert upgrade(NEW) == [(CSV, "updated", "")]
    assert contents(folder) == NEW


def test_what_a_killed_run_left_is_swept_after_an_hour(copy):
    folder, upgrade = copy
    left = folder / "lessons" / (workbook.UNFINISHED + "x")
    left.write_bytes(b"half")
    upgrade(OLD, "0.1.0")
    assert left.exists(), "another run may be writing it"
    os.utime(left, (time.time() - 7200,) * 2)
    upgrade(OLD, "0.1.0")
    assert not left.exists()


def test_a_folder_in_the_way_of_a_file_is_kept(copy):
    folder, upgrade = copy
    (folder / CSV).unlink()
    (folder / CSV).mkdir()
    assert (CSV, "beside", "datasets/exercise_values.new-0.2.0.csv") in upgrade(NEW)
    assert (folder / CSV).is_dir()


def test_a_folder_that_cannot_be_made_is_said_in_a_sentence(tmp_path):
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(StudentError, match=r"taken .*Needed: a folder you may write in.*pastrylab open --folder"):
        workbook.update(tree(tmp_path / "shipped", OLD), tmp_path / "taken", "0.1.0")


def test_answers_and_checkpoints_are_not_shipped(tmp_path):
    private = {
        "lessons/my-answers/00.jsonl": b"{}",
        "lessons/.ipynb_checkpoints/02-tempering-checkpoint.ipynb": b"{}",
        "datasets/__pycache__/x.pyc": b"",
    }
    assert set(workbook.shipped_files(tree(tmp_path, {**OLD, **private}))) == set(OLD)


# --- where the workbook is ------------------------------------------------------------------------------


def checkout(root: Path, name="pastrylab") -> Path:
    return tree(root, {"pyproject.toml": f'[project]\nname = "{name}"\n'.encode(), **OLD})


def test_a_checkout_is_opened_as_it_is(tmp_path):
    root = checkout(tmp_path / "checkout")
    before = contents(root)
    said = []
    assert workbook.prepare(root / "lessons", say=said.append) == root
    assert contents(root) == before and not (root / files.MANIFEST).exists()
    assert len(said) == 1 and "the package is installed from elsewhere" in said[0]


def test_another_projects_checkout_is_not_ours(tmp_path):
    assert files.locate(checkout(tmp_path, "something-else")) is None
    (tmp_path / "pyproject.toml").write_bytes(b"[project\n")
    assert files.locate(tmp_path) is None


def test_the_working_copy_is_found_from_inside_and_from_beside(tmp_path, monkeypatch):
    monkeypatch.setattr(workbook, "shipped_root", lambda: tree(tmp_path / "installed", OLD))
    here = tmp_path / "class"
    here.mkdir()
    assert files.locate(here) is None
    said = []
    root = workbook.prepare(here, say=said.append)
    assert root == here / "pastrylab-workbook" and said == [f"Made your working copy: {root}"]
    for start in (here, root, root / "lessons"):
        assert files.locate(start) == root
        assert workbook.prepare(start, say=said.append) == root
    assert len(said) == 1
    (root / LESSON).unlink()
    workbook.prepare(root, say=said.append)
    assert said[1:] == [f"Was missing, put back: {LESSON}"]
    assert workbook.prepare(here, tmp_path / "other", say=said.append) == tmp_path / "other"
    assert contents(tmp_path / "other") == OLD


def test_every_change_has_a_sentence():
    for action in ("added", "restored", "updated", "kept", "beside", "left"):
        assert LESSON in str(workbook.Change(LESSON, action, "x"))


# --- the command line -----------------------------------------------------------------------------------


def test_lab_command_keeps_the_workbook_as_the_top_of_the_file_list(tmp_path, monkeypatch):
    root = tree(tmp_path, {"lessons/00-start-here.ipynb": notebook("1")})
    command = lab.lab_command(root, browser=False)
    assert command[:4] == [sys.executable, "-m", "pastrylab.desk.served", "jupyterlab"]
    assert "--LabApp.default_url=/doc/tree/lessons/00-start-here.ipynb" in command
    assert f"--ServerApp.root_dir={root}" in command and "--no-browser" in command
    assert not any("token" in part or "password" in part for part in command), "the token stays"
    for user, expected in ((0, True), (1000, False)):
        monkeypatch.setattr(lab.os, "geteuid", lambda user=user: user, raising=False)
        assert ("--allow-root" in lab.lab_command(root)) == (expected and os.name == "posix")


def test_the_kernels_are_told_whose_files_to_read_and_nothing_asks_for_news(tmp_path, monkeypatch):
    monkeypatch.setenv("JUPYTER_CONFIG_PATH", "of-the-school")
    setting = lab.lab_environment(tmp_path)
    assert setting["PASTRYLAB_WORKBOOK"] == str(tmp_path)
    own, *others = setting["JUPYTER_CONFIG_PATH"].split(os.pathsep)
    assert others == ["of-the-school"]
    overrides = json.loads((Path(own) / "labconfig" / "default_setting_overrides.json").read_text())
    assert overrides["@jupyterlab/apputils-extension:notification"]["fetchNews"] == "false"


def test_without_jupyterlab_there_is_a_plain_sentence(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(lab.importlib.util, "find_spec", lambda name: None)
    monkeypatch.setattr(workbook, "prepare", lambda *_: tmp_path)
    assert command_line.main(["open"]) == 2
    said = capsys.readouterr().err
    assert "JupyterLab" in said and "pip install jupyterlab" in said and "Traceback" not in said


def test_a_students_mistake_is_a_sentence_and_ours_is_not_hidden(monkeypatch, capsys):
    def refuse(*_):
        raise StudentError("a file of 3 columns", "4 columns", "lesson,exercise,given,value")

    monkeypatch.setattr(workbook, "prepare", refuse)
    assert command_line.main(["open"]) == 2
    assert capsys.readouterr().err.startswith("You gave a file of 3 columns. Needed: 4 columns.")
    monkeypatch.setattr(workbook, "prepare", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        command_line.main(["open"])


def test_no_command_prints_the_help(capsys):
    assert command_line.main([]) == 2
    assert "open" in capsys.readouterr().out
    assert command_line.main(["--version"]) == 0
    assert capsys.readouterr().out.strip() == workbook.version()


def test_check_prints_what_the_exercises_say(monkeypatch, capsys, tmp_path):
    asked = []
    fake = types.SimpleNamespace(
        check=lambda values=None, students=1000, progress=None: (
            asked.append(values) or ["the batch is outside its range"]
        )
    )
    monkeypatch.setattr("pastrylab.desk.checked.catalogue", fake)
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))
    assert command_line.main(["check"]) == 1
    assert "the batch is outside its range\n" in capsys.readouterr().out
    assert asked == [None]
    assert command_line.main(["check", "--values", str(tmp_path / "none.csv")]) == 2
    assert "none.csv" in capsys.readouterr().err


# --- what dies with a kernel ------------------------------------------------------------------------------

VIEW = {"output_type": "display_data", "data": {stale.VIEW: {"model_id": "1"}, "text/plain": "Card()"}, "metadata": {}}
ERROR = {"output_type": "error", "ename": "NameError", "evalue": "x", "traceback": ["red"]}
RED = {"output_type": "stream", "name": "stderr", "text": "red"}
PRINTED = {"output_type": "stream", "name": "stdout", "text": "719 g"}
PICTURE = {"output_type": "display_data", "data": {"image/png": "iVBOR"}, "metadata": {}}


@pytest.mark.parametrize(
    ("outputs", "left"),
    [
        ([VIEW], []),
        ([ERROR], []),
        ([RED], []),
        ([PRINTED], [PRINTED]),
        ([PICTURE], [PICTURE]),
        ([PRINTED, VIEW, PICTURE, ERROR], [PRINTED, PICTURE]),
        ([], []),
    ],
)
def test_what_dies_with_a_kernel_is_taken_out_and_nothing_else(outputs, left):
    page = json.loads(notebook("melt()", outputs=outputs, count=7))
    changed = stale.cleared(page)
    (cell,) = page["cells"]
    assert (cell["outputs"], cell["source"]) == (left, "melt()") and changed == (left != outputs)
    assert cell["execution_count"] == (7 if left or not outputs else None)


def test_the_state_of_widgets_is_taken_out_and_pages_of_text_are_left():
    page = json.loads(notebook("melt()", widgets={"state": 1}, kernelspec={"name": "python3"}))
    page["cells"].append({"cell_type": "markdown", "id": "x", "source": "Why", "metadata": {}})
    assert stale.cleared(page) and page["metadata"] == {"kernelspec": {"name": "python3"}}
    assert not stale.cleared(page) and page["cells"][1]["source"] == "Why"


def test_the_hook_touches_notebooks_alone():
    page = json.loads(notebook("melt()", outputs=[VIEW]))
    stale.before_saving(model={"type": "notebook", "content": page}, path="x.ipynb", contents_manager=None)
    assert page["cells"][0]["outputs"] == []
    for model in ({"type": "file", "content": "text"}, {"type": "notebook", "content": None}, {"type": "directory"}):
        stale.before_saving(model=dict(model), path="x", contents_manager=None)


def test_opening_wakes_lessons_saved_by_another_jupyter_and_keeps_what_was_typed(tmp_path):
    root = tree(tmp_path / "book", {})
    mine = notebook("melt()", "# mine", outputs=[VIEW, PRINTED], count=3, widgets={"state": 1})
    (root / LESSON).write_bytes(mine)
    (root / "lessons/torn.ipynb").write_bytes(b"{")
    (root / "lessons/odd.ipynb").write_bytes(b'["no notebook"]')
    assert workbook.wake(root) == ["02-tempering.ipynb"]
    page = json.loads((root / LESSON).read_bytes())
    assert [cell["source"] for cell in page["cells"]] == ["melt()", "# mine"]
    assert all(cell["outputs"] == [PRINTED] for cell in page["cells"]) and "widgets" not in page["metadata"]
    assert workbook.wake(root) == [] and (root / "lessons/torn.ipynb").read_bytes() == b"{"


def test_the_jupyter_we_start_gets_the_hook(tmp_path):
    """As Jupyter itself finds its settings: the folder put before its path holds a file it runs."""
    from traitlets.config import PyFileConfigLoader

    folder = lab.lab_environment(tmp_path)["JUPYTER_CONFIG_PATH"].split(os.pathsep)[0]
    found = PyFileConfigLoader("jupyter_server_config.py", folder).load_config()
    assert found.ContentsManager.pre_save_hook is stale.before_saving


@pytest.mark.parametrize("kind", ["a checkout", "a working copy"])
def test_every_way_of_opening_wakes_the_lessons(tmp_path, kind, monkeypatch):
    root = tree(tmp_path / "book", OLD)
    monkeypatch.setattr(workbook, "shipped_root", lambda: tree(tmp_path / "shipped", OLD))
    if kind == "a checkout":
        (root / "pyproject.toml").write_text('[project]\nname = "pastrylab"\n')
    else:
        workbook.prepare(tmp_path, root, say=lambda _line: None)
    (root / LESSON).write_bytes(notebook("melt()", "cool()", outputs=[VIEW], count=3))
    workbook.prepare(tmp_path, root, say=lambda _line: None)
    assert b"widget-view" not in (root / LESSON).read_bytes()
