"""A lesson as Jupyter exports and prints it, with the settings of the JupyterLab that we start."""

from pathlib import Path

import nbformat
import pytest
from bs4 import BeautifulSoup
from nbconvert.exporters import get_exporter
from traitlets.config import PyFileConfigLoader

from pastrylab.desk import lab

LESSONS = sorted((Path(__file__).resolve().parents[1] / "lessons").glob("[!l]*.ipynb"))  # but a lab sheet of one's own


@pytest.fixture(scope="module")
def printer():
    folder = Path(lab.__file__).parent / "_lab"
    return get_exporter("html")(config=PyFileConfigLoader("jupyter_server_config.py", str(folder)).load_config())


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_a_printed_lesson_has_no_code_and_all_of_its_text(path, printer):
    lesson = nbformat.read(path, as_version=4)
    page = BeautifulSoup(printer.from_notebook_node(lesson)[0], "html.parser")
    code = [cell for cell in lesson.cells if cell.cell_type == "code"]
    assert not page.select(".jp-CodeCell .jp-InputArea") and "import" not in page.main.get_text()
    assert len(page.select(".jp-MarkdownCell")) == len(lesson.cells) - len(code)
    kept = ["".join(out.text for out in cell.outputs).strip() for cell in code if cell.outputs]
    assert [one.get_text().strip() for one in page.select(".jp-OutputArea-output pre")] == kept
    assert all(one.has_attr("open") for one in page.select("details"))
    assert len(page.select("details")) == sum(cell.source.count("<details") for cell in lesson.cells)


def test_code_that_a_reader_opened_is_printed(printer):
    opened = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell("weigh = 450", metadata={"jupyter": {}})])
    assert "weigh" in printer.from_notebook_node(opened)[0]
