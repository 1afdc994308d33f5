"""Lessons in a real kernel: on other exercise values, twice over, and with their sections in another order."""

import random
import shutil
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

from pastrylab.school import exercise_values

ROOT = Path(__file__).resolve().parents[2]
NOTEBOOKS = sorted((ROOT / "lessons").glob("*.ipynb"))
pytestmark = pytest.mark.slow


@pytest.fixture
def other_values(tmp_path, monkeypatch):
    """A working copy whose exercise values are drawn at random within their limits."""
    (tmp_path / "lessons").mkdir()
    shutil.copytree(ROOT / "datasets", tmp_path / "datasets")
    dice = random.Random(20)
    moved = exercise_values.values().moved(lambda _e, _n, g: float(f"{g.low + dice.randint(0, g.steps) * g.step:.10g}"))
    (tmp_path / "datasets" / "exercise_values.csv").write_text(moved.to_csv(), encoding="utf-8")
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))
    return tmp_path


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_runs_on_other_values_twice_and_in_another_order(path, other_values):
    notebook = nbformat.read(path, as_version=4)
    code = [i for i, cell in enumerate(notebook.cells) if cell.cell_type == "code"]
    for index in code:  # here an error in a cell a reader may change is an error
        notebook.cells[index].metadata["tags"] = []
    setup, others = code[0], code[1:]
    shuffled = random.Random(path.stem).sample(others, len(others))
    client = NotebookClient(notebook, timeout=60, resources={"metadata": {"path": str(other_values / "lessons")}})
    with client.setup_kernel():
        for order in (code, code, [setup, *shuffled]):
            for index in order:
                client.execute_cell(notebook.cells[index], index)
    moved = exercise_values.values(other_values / "datasets" / "exercise_values.csv")
    said = "".join(out.get("text", "") for out in notebook.cells[setup].outputs)
    assert moved.id in said and moved.id != exercise_values.values(ROOT / "datasets" / "exercise_values.csv").id


def test_a_refused_number_is_one_sentence_and_the_cells_below_run(own_values_04):
    refused, last = own_values_04
    error = refused.outputs[-1]  # behind the lines it printed before
    assert error.output_type == "error" and error.ename == "StudentError"
    assert error.traceback == [error.evalue] and "5280 furlongs" in error.evalue
    assert last.execution_count and not any(out.output_type == "error" for out in last.outputs)


@pytest.fixture(scope="module")
def own_values_04(tmp_path_factory):
    """Lesson 04 with an altitude nobody knows typed into its cell: that cell, and the last one, after Run All."""
    notebook = nbformat.read(next((ROOT / "lessons").glob("04-*.ipynb")), as_version=4)
    code = [cell for cell in notebook.cells if cell.cell_type == "code"]
    cell = next(cell for cell in code if '"1000 m"' in cell.source)
    cell.source = cell.source.replace('"1000 m"', '"5280 furlongs"')
    client = NotebookClient(
        notebook, timeout=60, resources={"metadata": {"path": str(tmp_path_factory.mktemp("lessons"))}}
    )
    client.execute()
    return cell, code[-1]
