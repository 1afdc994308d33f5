"""A lesson on paper: run once more, so that what stands on it is what a reader would see; folded code stays away."""

import logging
import os
import re
import subprocess
import sys
from pathlib import Path

import nbformat
from nbconvert.preprocessors import Preprocessor

from pastrylab.desk import lab, lesson_text
from pastrylab.desk.stale import VIEW
from pastrylab.ground.units import StudentError

_LONGEST = 300  # seconds, of a whole lesson
_PAPER = """<style>@media print {
@page { size: auto; margin: 13mm 14mm }
body { padding: 0 !important }
pre { white-space: pre-wrap !important; word-break: normal !important; overflow-wrap: break-word }
.jp-OutputArea-output img, svg { max-width: 100% !important; height: auto; break-inside: avoid }
.anchor-link { display: none !important }
h1, h2, h3 { break-after: avoid } tr, li { break-inside: avoid }
}</style>"""
_ELSEWHERE = re.compile(r'<script[^>]*\bsrc="https?://[^"]*"[^>]*>\s*</script>')
log = logging.getLogger("pastrylab")


class Printed(Preprocessor):
    """Jupyter's export and its *Print*, which goes by the same way.

    Where the lesson's folder is known, cells without an output are run: a saved lesson holds no benches and no exercises.
    Folded code stays away, a folded text stands open, and of a bench or a card its texts and pictures are printed.
    """

    def preprocess(self, notebook, resources):
        """The notebook as it is printed, and nbconvert's resources unchanged."""
        folder = resources.get("metadata", {}).get("path")
        if folder and any(cell.cell_type == "code" and not cell.outputs for cell in notebook.cells):
            notebook = _run(notebook, folder)
        notebook.metadata.pop("widgets", None)
        return super().preprocess(notebook, resources)

    def preprocess_cell(self, cell, resources, _index):
        if cell.cell_type == "code":
            if cell.metadata.get("jupyter", {}).get("source_hidden"):
                cell.metadata["transient"] = {"remove_source": True}  # nbconvert's own mark: no code, its output stays
            cell.outputs = [output for output in map(_as_text, cell.outputs) if output is not None]
        if cell.cell_type == "markdown":
            cell.source = cell.source.replace("<details>", "<details open>")
        return cell, resources


def _run(notebook, folder):
    """The notebook with its cells run; as it was saved where they cannot be, and the log says so.

    In a process of its own: who asks may be a thread of a server or a lesson's kernel, with a loop of its own that runs.
    """
    # In a JupyterLab of ours the workbook is known already.
    env = dict(os.environ) if "PASTRYLAB_WORKBOOK" in os.environ else lab.lab_environment(Path(folder).parent)
    command = [
        sys.executable,
        "-m",
        "nbconvert",
        "--to",
        "notebook",
        "--execute",
        "--allow-errors",
        "--stdin",
        "--stdout",
    ]
    try:
        done = subprocess.run(
            command,
            input=nbformat.writes(notebook).encode(),
            cwd=folder,
            env=env,
            capture_output=True,
            timeout=_LONGEST,
        )
        return nbformat.reads(done.stdout.decode("utf-8"), as_version=4)
    except (OSError, ValueError, subprocess.TimeoutExpired):
        log.exception("a lesson could not be run for printing")
        return notebook


def _as_text(output):
    """An output as it goes on paper, or None: of a widget its HTML, and nothing of one that has none."""
    if output.output_type == "stream" and output.name == "stderr":
        return None
    if VIEW in output.get("data", {}):
        if "text/html" not in output.data:
            return None
        output.data.pop(VIEW)
    return output


def print_lesson(number, out):
    """Write a lesson as it would stand after Run All, with the answers kept so far, as one page for a browser to print.

    Returns what to tell the person, sentences. Raises StudentError for a lesson that is not there and a folder that cannot
    be written to.
    """
    from nbconvert import HTMLExporter

    lesson = lesson_text.lesson(number)
    exporter = HTMLExporter(embed_images=True, exclude_input_prompt=True, exclude_output_prompt=True)
    exporter.register_preprocessor(Printed, enabled=True)
    notebook = nbformat.read(lesson.path, as_version=4)
    page, _ = exporter.from_notebook_node(notebook, {"metadata": {"path": str(lesson.folder), "name": lesson.title}})
    page = _ELSEWHERE.sub("", page).replace("</head>", f"{_PAPER}</head>", 1)
    path = Path(out) / f"{lesson.number}-lesson.html"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(page, encoding="utf-8")
    except OSError as error:
        raise StudentError(
            f"{out}, which cannot be written to ({error.strerror or error})", "a folder you may write in", "paper"
        ) from None
    return [f"Written to {out}: {path.name}. Open it, and print it from the browser."]
