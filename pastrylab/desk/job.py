"""One job at the instructor's desk: boxes, a button, what came of it; and where at the desk things lie."""

import os
from pathlib import Path
from urllib.parse import quote

import ipywidgets as widgets

from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.page.boxes import button
from pastrylab.page.form import Form

_SHOWN, _LINKED = 12, 20  # sentences and links on the page


def desk(*names):
    """A Path in the folder my-desk of the workbook in force, which no hand-out takes along."""
    return (files.workbook() or Path.cwd()).joinpath("my-desk", *names)


class Job(Form):
    """One job: boxes, a button, what came of it, and links to what was made.

    rows: boxes, as for a Form; label, hint: of the button; do: called without arguments, returns the sentences to show and
    the Paths to link.
    """

    def __init__(self, rows, label, hint, do):
        self.press, self.links, self._do = button(label, hint), widgets.Output(), do
        super().__init__(rows, self.press, self.run, [self.links])

    def run(self):
        """Do it, and say what came of it. Raises what the job raises."""
        self.links.outputs = ()
        self.press.disabled = True
        self.say("Working on it.")
        try:
            made_folder(desk())
            said, made = self._do()
        finally:
            self.press.disabled = False
        more = len(said) - _SHOWN
        self.say([*said[:_SHOWN], f"And {more} more."] if more > 0 else list(said))
        self.show(made)

    def show(self, made):
        """Link the files made: a press opens one beside this page."""
        there = [path for path in made if path.exists()]
        lines = [f"- [{path.name}]({_link(path)})" for path in there[:_LINKED]]
        lines += [f"- and {len(there) - _LINKED} more in {there[-1].parent}"] if len(there) > _LINKED else []
        text = "There now:\n\n" + "\n".join(lines) if lines else ""
        data = {"text/markdown": text, "text/plain": text}
        self.links.outputs = ({"output_type": "display_data", "data": data, "metadata": {}},) if lines else ()


def _link(path):
    """The way from this page to a file, as a link writes it."""
    return quote(Path(os.path.relpath(path)).as_posix())


def upload(accept, label, multiple):
    """A button that brings files from the instructor's own machine; accept: the ends of their names."""
    return widgets.FileUpload(
        accept=accept, multiple=multiple, description=label, layout=widgets.Layout(width="auto", min_width="200px")
    )


def keep(path, data):
    """Write bytes to a Path, its folder made if need be. Raises StudentError where the disk does not take it."""
    made_folder(path.parent)
    try:
        path.write_bytes(data)
    except OSError as error:
        raise StudentError(
            f"{path}, which cannot be written ({error.strerror or error})", "room on the disk", "press again"
        ) from None


def made_folder(folder):
    """Make a folder at the desk. The desk itself is closed to others: names lie in it. Raises StudentError as `keep`."""
    try:
        desk().mkdir(mode=0o770, exist_ok=True)
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StudentError(
            f"{folder}, which cannot be made ({error.strerror or error})", "a folder one may write in", "press again"
        ) from None


def plain(text, what):
    """A folder's name as typed: letters, digits, space, dash. StudentError for anything else."""
    name = " ".join(text.split())
    if not name or len(name) > 40 or not all(one.isalnum() or one in " -_" for one in name):
        raise StudentError(
            f"{name[:40] or 'nothing'} for '{what}'", "a few letters, digits, spaces and dashes", "friday"
        )
    return name


def safe(name):
    """A file's name as a page sends it, without anything that leads out of a folder."""
    kept = "".join(one if one.isalnum() or one in " .-_()" else "-" for one in name)[-80:].strip(" .")
    return kept or "hand-in"


def free(path):
    """The path itself, or with a number behind its name where something lies there already."""
    tries = (path.with_name(f"{path.stem} ({n}){path.suffix}") for n in range(2, 10_000))
    return path if not path.exists() else next(one for one in tries if not one.exists())
