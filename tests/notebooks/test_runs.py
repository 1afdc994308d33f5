"""Lessons in a real kernel, on other exercise values and with their sections in another order."""

import random
import shutil
from pathlib import Path

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


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_runs_on_other_values_and_in_another_order(path, run, other_values):
    notebook = nbformat.read(path, as_version=4)
    code = [i for i, cell in enumerate(notebook.cells) if cell.cell_type == "code"]
    for index in code:  # here an error in a cell a reader may change is an error
        notebook.cells[index].metadata["tags"] = []
    setup, others = code[0], code[1:]
    shuffled = random.Random(path.stem).sample(others, len(others))
    # In their own order nbval has run them, on the class's values.
    run(notebook, [*depth([], code), setup, *shuffled])
    moved = exercise_values.values(other_values / "datasets" / "exercise_values.csv")
    said = "".join(out.get("text", "") for out in notebook.cells[setup].outputs)
    assert moved.id in said and moved.id != exercise_values.values(ROOT / "datasets" / "exercise_values.csv").id


def test_a_refused_number_is_one_sentence_and_the_cells_below_run(run):
    """Lesson 04 with an altitude nobody knows typed into its cell."""
    notebook = nbformat.read(next((ROOT / "lessons").glob("04-*.ipynb")), as_version=4)
    code = [i for i, cell in enumerate(notebook.cells) if cell.cell_type == "code"]
    refused = next(notebook.cells[i] for i in code if '"1000 m"' in notebook.cells[i].source)
    refused.source = refused.source.replace('"1000 m"', '"5280 furlongs"')
    last = notebook.cells[code[-1]]
    last.execution_count = None
    run(notebook, code)
    error = refused.outputs[-1]  # behind the lines it printed before
    assert error.output_type == "error" and error.ename == "StudentError"
    assert error.traceback == [error.evalue] and "5280 furlongs" in error.evalue
    assert last.execution_count and not any(out.output_type == "error" for out in last.outputs)
