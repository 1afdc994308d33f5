"""The instructor's desk: what the commands do, by buttons on a page; what they make lies in the folder my-desk."""

import os
from pathlib import Path
from urllib.parse import quote

import ipywidgets as widgets

from pastrylab.desk import checked, handout, marked, planned
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, answer_box, button, field, row
from pastrylab.page.form import Form
from pastrylab.school.class_list import class_list
from pastrylab.trade.planning import AIMS

_SHOWN = 12  # sentences on the page
_SHEET = "class-list.csv"
_HAND_INS = "hand-ins"


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
        _made(desk())
        try:
            _made(desk())
            said, made = self._do()
        finally:
            self.press.disabled = False
        more = len(said) - _SHOWN
        self.say([*said[:_SHOWN], f"And {more} more."] if more > 0 else list(said))
        self.show(made)

    def show(self, made):
        """Link the files made: a press opens one beside this page."""
        lines = [f"- [{path.name}]({_link(path)})" for path in made if path.exists()]
        text = "Made just now:\n\n" + "\n".join(lines) if lines else ""
        data = {"text/markdown": text, "text/plain": text}
        self.links.outputs = ({"output_type": "display_data", "data": data, "metadata": {}},) if lines else ()


def _link(path):
    """The way from this page to a file, as a link writes it."""
    return quote(Path(os.path.relpath(path)).as_posix())


def check_sheets():
    """Whether every exercise can still be asked, and every other sheet read."""

    def do():
        roll = desk(_SHEET) if desk(_SHEET).is_file() else None
        return checked.check_all(roll=roll, hand_outs=desk("hand-out"), progress=job.say).said, []

    job = Job([], "Check the sheets", "Tries every exercise as two hundred students would have it", do)
    return job


# --- the class ------------------------------------------------------------------------------------------------


class ClassList(widgets.VBox):
    """The class list, brought in from the instructor's own machine; it stays at the desk."""

    def __init__(self):
        self.load = _upload(".csv,.txt,.tsv", "Bring the class list", multiple=False)
        self.said = widgets.HTML(layout=WIDE)
        self._job = Job([], "Read it again", "Reads the class list that lies at the desk", self._read)
        self.load.observe(guarded(self._job.said)(self._on_load), "value")
        super().__init__([row(self.load), self._job], layout=WIDE)
        if desk(_SHEET).is_file():
            self._job.act()
        else:
            self._job.say("No class list yet. A column called number is all it needs; name and section help.")

    def _on_load(self, _change):
        for one in self.load.value:
            data = bytes(one["content"])
            class_list(data, one["name"])  # refused before it replaces the one that lies there
            _keep(desk(_SHEET), data)
            self._job.run()

    def _read(self):
        people = the_class()
        sections = {}
        for one in people.students:
            sections[one.section] = sections.get(one.section, 0) + 1
        told = [f"{count} in {name or 'no section'}" for name, count in sorted(sections.items())]
        said = [f"{len(people.students)} students: {', '.join(told)}.", *people.left_out]
        return [*said, f"It lies at {desk(_SHEET)} and goes into no hand-out."], [desk(_SHEET)]


def the_class():
    """The ClassList at the desk. Raises StudentError where there is none, or it cannot be read."""
    try:
        data = desk(_SHEET).read_bytes()
    except OSError:
        raise StudentError("no class list", "one brought in above, under The class", "number,name,section") from None
    return class_list(data, _SHEET)


def hand_out():
    """Make the file that students install, and the page that says how."""

    def do():
        made = handout.hand_out(desk("hand-out"))
        said = [f"Give your students the file {made.wheel.name}, with exercise values {made.values}."]
        said += [f"They put it into a folder of their own and type there, as one line: {made.line}"]
        said += [f"On Windows, in PowerShell: {made.line_on_windows}"]
        said += [f"Left out, as no lesson reads it: {', '.join(made.left_out)}."] if made.left_out else []
        return [*said, f"Both lie in {made.wheel.parent}."], [made.page]

    return Job([], "Make the hand-out", "The lessons and numbers as they are now, in one file", do)


# --- a lab day ------------------------------------------------------------------------------------------------


def plan_day():
    """An order becomes shopping, a timeline, bench sheets and labels."""
    order = TypedArea(
        description="The order", rows=5, value="60 dark ganache\n5 boxes of 12 hazelnut praline", **field()
    )
    named = answer_box("Name of the day", "friday")
    rejects, box = answer_box("Rejects", "10 %"), answer_box("Pieces in a box", "12")
    named.value, rejects.value, box.value = "friday", "10 %", "12"
    aim = widgets.Dropdown(options=list(AIMS), description="Plan for the", **field("300px"))
    law = widgets.Dropdown(options=["US", "EU"], description="Label law", **field("200px"))

    def do():
        folder = desk("lab-days", _plain(named.value, "Name of the day"))
        _keep(folder / "order.txt", order.value.encode())
        seconds = 10.0
        _fits, said = planned.plan_order(
            folder / "order.txt", folder, aim.value, rejects.value, seconds, law.value, box.value
        )
        return said, planned.files(folder)

    rows = [[order], [named, rejects], [aim], [law, box]]
    return Job(rows, "Plan it", "Quantities, shopping, and the day planned backwards", do)


# --- marking --------------------------------------------------------------------------------------------------


class Marking(widgets.VBox):
    """What came in, and marking it against the class list."""

    def __init__(self):
        self.load = _upload(".zip,.jsonl", "Bring what was handed in", multiple=True)
        self.begins = answer_box("First day of the term, if you like", "2026-09-01")
        self.job = Job([[self.begins]], "Mark it", "A gradebook, the slips of the class, what to look at", self._mark)
        self.load.observe(guarded(self.job.said)(self._on_load), "value")
        super().__init__([row(self.load), self.job], layout=WIDE)
        guarded(self.job.said)(lambda: self.job.say(self._there()))()

    def _there(self):
        folder = desk(_HAND_INS)
        _made(folder)
        found = sum(1 for one in folder.rglob("*") if one.is_file())
        lie = "1 file lies" if found == 1 else f"{found} files lie"
        return f"{lie} in {folder}. Lay more there yourself, folders as they are, or bring them here."

    def _on_load(self, _change):
        for one in self.load.value:
            _keep(_free(desk(_HAND_INS, _safe(one["name"]))), bytes(one["content"]))
        self.job.say(self._there())

    def _mark(self):
        the_class()
        given_out = desk("hand-out", "values")
        said = marked.mark_folder(
            desk(_HAND_INS),
            desk(_SHEET),
            desk("marks"),
            [given_out] if given_out.is_dir() else [],
            term_start=self.begins.value.strip(),
            progress=self.job.say,
        )
        return said, [desk("marks", name) for name in ("class.html", "gradebook.csv", "lessons.csv", "flags.csv")]


# --- what the jobs share --------------------------------------------------------------------------------------


def _upload(accept, label, multiple):
    return widgets.FileUpload(
        accept=accept, multiple=multiple, description=label, layout=widgets.Layout(width="auto", min_width="200px")
    )


def _keep(path, data):
    _made(path.parent)
    try:
        path.write_bytes(data)
    except OSError as error:
        raise StudentError(
            f"{path}, which cannot be written ({error.strerror or error})", "room on the disk", "press again"
        ) from None


def _made(folder):
    try:
        desk().mkdir(mode=0o770, exist_ok=True)  # names lie in it: on a machine with other accounts not theirs to read
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StudentError(
            f"{folder}, which cannot be made ({error.strerror or error})", "a folder one may write in", "press again"
        ) from None


def _plain(text, what):
    """A folder's name as typed: letters, digits, space, dash. StudentError for anything else."""
    name = " ".join(text.split())
    if not name or len(name) > 40 or not all(one.isalnum() or one in " -_" for one in name):
        raise StudentError(
            f"{name[:40] or 'nothing'} for '{what}'", "a few letters, digits, spaces and dashes", "friday"
        )
    return name


def _safe(name):
    """A file's name as a page sends it, without anything that leads out of a folder."""
    kept = "".join(one if one.isalnum() or one in " .-_()" else "-" for one in name)[-80:].strip(" .")
    return kept or "hand-in"


def _free(path):
    """The path itself, or with a number behind its name where something lies there already."""
    tries = (path.with_name(f"{path.stem} ({n}){path.suffix}") for n in range(2, 10_000))
    return path if not path.exists() else next(one for one in tries if not one.exists())
