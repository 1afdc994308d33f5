"""Coming back, a student presses Shift-Enter in any cell first: every cell stands alone."""

import ast
import json
from pathlib import Path

import matplotlib
import pytest

LESSONS = Path(__file__).resolve().parents[2] / "lessons"
CELLS = [
    pytest.param("".join(cell["source"]), id=f"{path.stem[:2]}-{cell['id']}")
    for path in sorted(LESSONS.glob("*.ipynb"))
    if not path.name.startswith("lab-")  # a sheet of one's own
    for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]
    if cell["cell_type"] == "code"
]


@pytest.mark.parametrize("source", CELLS)
def test_every_cell_runs_before_any_other(source, own_workbook, undrawn):
    matplotlib.use("agg")
    exec(compile(ast.parse(source), "a cell", "exec"), {"__name__": "__main__"})
