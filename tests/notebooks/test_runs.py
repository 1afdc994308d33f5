"""Lessons on other exercise values and with their sections in another order."""

import random
import shutil
from pathlib import Path

import matplotlib
import nbformat
import pytest
from depth import depth
from jupyter_client.manager import start_new_kernel
from nbclient import NotebookClient

from pastrylab.school import exercise_values

ROOT = Path(__file__).resolve().parents[2]
NOTEBOOKS = sorted((ROOT / "lessons").glob("[!l]*.ipynb"))  # but a lab sheet of one's own
pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def other_values(tmp_path_factory):
    """A working copy whose exercise values are drawn at random within their limits."""
    folder = tmp_path_factory.mktemp("workbook")
    (folder / "lessons").mkdir()
    shutil.copytree(ROOT / "datasets", folder / "datasets")
    dice = random.Random(20)
    moved = exercise_values.values().moved(lambda _e, _n, g: float(f"{g.low + dice.randint(0, g.steps) * g.step:.10g}"))
    (folder / "datasets" / "exercise_values.csv").write_text(moved.to_csv(), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def kernel(other_values):
    """A kernel that stands in that working copy."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("PASTRYLAB_WORKBOOK", str(other_values))
        manager, client = start_new_kernel(cwd=str(other_values / "lessons"))
    client.stop_channels()
    yield manager
    manager.shutdown_kernel(now=True)


@pytest.fixture
def run(kernel):
    """run(notebook, order): its cells in that order. No name is left from the lesson before; in a kernel of its own each
    lesson is run by nbval."""
    reset = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell("%reset -f")])

    def runs(notebook, order):
        client = NotebookClient(notebook, km=kernel, timeout=60)
        with client.setup_kernel():
            for index in order:
                client.execute_cell(notebook.cells[index], index)

    yield runs
    runs(reset, [0])


def opened(path):
    """(notebook, the places of its code cells, of those without the first in another order)."""
    notebook = nbformat.read(path, as_version=4)
    code = [i for i, cell in enumerate(notebook.cells) if cell.cell_type == "code"]
    return notebook, code, random.Random(path.stem).sample(code[1:], len(code) - 1)


def values_said(said, folder):
    """Whether a lesson's first cell named the values of that folder, and they are not the class's."""
    moved = exercise_values.values(folder / "datasets" / "exercise_values.csv")
    return moved.id in said and moved.id != exercise_values.values(ROOT / "datasets" / "exercise_values.csv").id


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_runs_on_other_values_in_another_order(path, other_values, monkeypatch, capsys, undrawn):
    """Here, in one room of names, and without drawing: nbval has drawn every picture, in a kernel."""
    notebook, (setup, *_), shuffled = opened(path)
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(other_values))
    monkeypatch.chdir(other_values / "lessons")
    matplotlib.use("agg")
    names = {"__name__": "__main__"}
    for index in (setup, *shuffled):
        exec(compile(notebook.cells[index].source, f"cell {index}", "exec"), names)
        if index == setup:
            assert values_said(capsys.readouterr().out, other_values)


@pytest.mark.deep
@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_runs_on_other_values_in_both_orders_in_a_kernel(path, run, other_values):
    notebook, code, shuffled = opened(path)
    for index in code:  # here an error in a cell a reader may change is an error
        notebook.cells[index].metadata["tags"] = []
    run(notebook, [*code, code[0], *shuffled])
    assert values_said("".join(out.get("text", "") for out in notebook.cells[code[0]].outputs), other_values)


def test_a_refused_number_is_one_sentence_and_the_cells_below_run(run):
    """Lesson 04 with an altitude nobody knows typed into its cell."""
    notebook = nbformat.read(next((ROOT / "lessons").glob("04-*.ipynb")), as_version=4)
    code = [i for i, cell in enumerate(notebook.cells) if cell.cell_type == "code"]
    at = next(i for i in code if '"1000 m"' in notebook.cells[i].source)
    refused = notebook.cells[at]
    refused.source = refused.source.replace('"1000 m"', '"5280 furlongs"')
    last = notebook.cells[code[-1]]
    last.execution_count = None
    run(notebook, depth([at, code[-1]], code))
    error = refused.outputs[-1]  # behind the lines it printed before
    assert error.output_type == "error" and error.ename == "StudentError"
    assert error.traceback == [error.evalue] and "5280 furlongs" in error.evalue
    assert last.execution_count and not any(out.output_type == "error" for out in last.outputs)
