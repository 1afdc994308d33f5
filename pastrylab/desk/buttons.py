"""The instructor's desk: what the commands do, by buttons on a page; what they make lies in the folder my-desk."""

import re

import ipywidgets as widgets

from pastrylab.course.catalogue import FOLDERS
from pastrylab.desk import archived, checked, handout, keys, marked, paper, planned
from pastrylab.desk.job import Job, desk, free, keep, made_folder, plain, safe, upload
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, answer_box, field, row
from pastrylab.school.class_list import class_list
from pastrylab.trade.planning import AIMS

_SHEET = "class-list.csv"
_HAND_INS = "hand-ins"


def check_sheets():
    """Whether every exercise can still be asked, and every other sheet read."""

    def do():
        return checked.check_all(roll=_roll(), hand_outs=desk("hand-out"), progress=job.say).said, []

    job = Job([], "Check the sheets", "Tries every exercise as two hundred students would have it", do)
    return job


# --- the class ------------------------------------------------------------------------------------------------


class ClassList(widgets.VBox):
    """The class list, brought in from the instructor's own machine; it stays at the desk."""

    def __init__(self):
        self.load = upload(".csv,.txt,.tsv", "Bring the class list", multiple=False)
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
            keep(desk(_SHEET), data)
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
    anyway = widgets.Checkbox(description="hand out all the same", indent=False)

    def do():
        made = handout.hand_out(desk("hand-out"), anyway=anyway.value, how="a tick in the box above")
        said = [f"Handed out all the same: {fault}" for fault in made.faults]
        said += [f"Give your students the file {made.wheel.name}, with exercise values {made.values}."]
        said += [f"They put it into a folder of their own and type there, as one line: {made.line}"]
        said += [f"On Windows, in PowerShell: {made.line_on_windows}"]
        said += [f"Left out, as no lesson reads it: {', '.join(made.left_out)}."] if made.left_out else []
        return [*said, f"Both lie in {made.wheel.parent}."], [made.page]

    return Job([[anyway]], "Make the hand-out", "The lessons and numbers as they are now, in one file", do)


# --- on paper -------------------------------------------------------------------------------------------------


def print_keys():
    """Keys of the class, and its exercises on paper: every student's own numbers, or the class's where there is no list."""
    lesson, section = _lesson(), answer_box("Section, if one alone", "A")
    number = answer_box("One student or group alone", "17, or 17 and 23")
    sheets = widgets.Checkbox(description="exercise sheets with room to write as well", indent=False)

    def do():
        who, lessons = number.value.strip(), [lesson.value] if lesson.value else []
        out = desk("keys", plain(who, "One student or group alone")) if who else desk("keys")
        said = keys.make_keys(
            out,
            _roll(),
            lessons,
            section.value.strip(),
            [who] if who else (),
            sheets=sheets.value,
            progress=lambda said: job.say(said),
        )
        return said, _of(out, lesson.value)

    job = Job([[lesson, section], [number], [sheets]], "Make the keys", "A page a student, a grid, and a table", do)
    return job


def print_papers():
    """The sheets that a lesson has for paper with their keys, its rubric, marking of pieces, lab sheets; attendance."""
    lesson, benches = _lesson(), answer_box("Lab sheets, one a bench", "6")
    dates = answer_box("Dates of the attendance", "2026-10-05; 2026-10-12")
    benches.value = "6"

    def do():
        out, numbers = desk("paper"), [lesson.value] if lesson.value else []
        said = paper.paper_of(numbers, out, _roll(), dates.value, benches.value)
        return said, [*_of(out, lesson.value), out / "attendance.html"]

    return Job([[lesson, benches], [dates]], "Make the sheets", "Each a page of its own, to print", do)


def _lesson():
    lessons = [("all lessons", ""), *((f"lesson {one}", one) for one in FOLDERS)]
    return widgets.Dropdown(options=lessons, description="For", **field("300px"))


def _roll():
    """The path of the class list at the desk, None where there is none."""
    return desk(_SHEET) if desk(_SHEET).is_file() else None


def _of(folder, lesson):
    """The pages and tables of a lesson, or of all, that lie in a folder now."""
    return sorted(one for one in folder.glob("*") if lesson in one.name and one.suffix in (".html", ".csv"))


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
    law = widgets.Dropdown(options=["US", "EU"], description="Label law", **field("300px"))
    absent = answer_box("Absent, for a make-up lab", "17: day 1; 23: both days")

    def do():
        folder = desk("lab-days", plain(named.value, "Name of the day"))
        keep(folder / "order.txt", order.value.encode())
        seconds = 10.0
        _fits, said = planned.plan_order(
            folder / "order.txt",
            folder,
            aim.value,
            rejects.value,
            seconds,
            law.value,
            box.value,
            absent=absent.value.strip(),
        )
        return said, planned.files(folder)

    rows = [[order], [named, rejects], [aim], [law, box], [absent]]
    return Job(rows, "Plan it", "Quantities, shopping, and the day planned backwards", do)


# --- marking --------------------------------------------------------------------------------------------------


class Marking(widgets.VBox):
    """What came in, and marking it against the class list."""

    def __init__(self):
        self.load = upload(".zip,.jsonl", "Bring what was handed in", multiple=True)
        self.begins = answer_box("First day of the term, if you like", "2026-09-01")
        self.explain = answer_box("A page on the marks of", "17; 23, or all")
        self.job = Job(
            [[self.begins], [self.explain]],
            "Mark it",
            "A gradebook, the slips of the class, what to look at",
            self._mark,
        )
        self.load.observe(guarded(self.job.said)(self._on_load), "value")
        super().__init__([self.job] if files.students() else [row(self.load), self.job], layout=WIDE)
        guarded(self.job.said)(lambda: self.job.say(self._there()))()

    def _there(self):
        if there := files.students():
            count = sum(1 for one in there.iterdir() if one.is_dir())
            lie = "1 student's folder lies" if count == 1 else f"{count} students' folders lie"
            return f"{lie} in {there}, on the class's server. Each is marked as it stands when you press."
        folder = desk(_HAND_INS)
        made_folder(folder)
        found = sum(1 for one in folder.rglob("*") if one.is_file())
        lie = "1 file lies" if found == 1 else f"{found} files lie"
        return f"{lie} in {folder}. Lay more there yourself, folders as they are, or bring them here."

    def _on_load(self, _change):
        for one in self.load.value:
            keep(free(desk(_HAND_INS, safe(one["name"]))), bytes(one["content"]))
        self.job.say(self._there())

    def _mark(self):
        the_class()
        given_out = desk("hand-out", "values")
        made_folder(given_out)
        said = marked.mark_folder(
            files.students() or desk(_HAND_INS),
            desk(_SHEET),
            desk("marks"),
            [given_out] if any(given_out.glob("*.csv")) else [],
            term_start=self.begins.value.strip(),
            progress=self.job.say,
            explain=[one.strip() for one in re.split("[;,]", self.explain.value) if one.strip()],
            again=lambda file: f"copy {file} into {given_out}, and press again.",
        )
        names = ("class.html", "gradebook.csv", "lessons.csv", "averages.csv", "flags.csv")
        return said, [*(desk("marks", name) for name in names), *sorted(desk("marks", "students").glob("*.html"))]


def put_names_away():
    """The desk once more with numbers in place of names, and what is to be deleted by hand."""

    def do():
        the_class()
        target = free(desk().with_name("my-desk-without-names"))
        if files.course():
            target.mkdir(mode=0o770)  # on a class's server it lies where students read
        _clean, said = archived.archive(
            desk(), desk(_SHEET), target, progress=lambda said: job.say(said), students=files.students()
        )
        return said, []

    job = Job([], "Put the names away", "A copy of the desk with numbers in place of names", do)
    return job
