"""A whole term through a browser: handed out, typed, handed in, new values, handed out again, handed in again, marked.

    python tests/browser/term/typed.py 60

Sixty students in three sections, each with a working copy made from the hand-out; most of them on pages without code, some
in JupyterLab, three at a time. The commands are those that an instructor types, run from the hand-out itself; nothing here
imports the package. What each typed is kept here alone, reckoned in `reckoned`, and put beside the gradebook.
"""

import argparse
import asyncio
import csv
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import zipfile
from datetime import datetime, timedelta
from pathlib import Path

from playwright.async_api import TimeoutError, async_playwright
from reckoned import LATE_ROW, OF_LESSON, ROW, TITLES, WORD, WORD_OF_C, acts, class_of, row_of, values_of

_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
_FLAGS = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"]
_LESSONS = {"00": "00-start-here", "01": "01-weigh-convert-scale", "08": "08-cost-and-price"}
_HEADS = {True: "Right", False: "Not yet"}
_AT_ONCE = 3
_AGAIN = 5  # a page is opened
_ROOT = Path(__file__).resolve().parents[3]
_WAIT = 120_000  # ms
_UPDATED = """import sys
from pathlib import Path
from pastrylab.desk import workbook
for folder in sys.argv[1:]:
    workbook.prepare(Path.cwd(), Path(folder))
"""


class Term:
    """The folders of a term, and the commands typed in it."""

    def __init__(self, folder):
        self.folder, self.teaching = folder, folder / "teaching"
        self.students, self.installed = folder / "students", folder / "installed"
        self.handed_in, self.marks = folder / "hand-ins", folder / "marks"
        for one in (self.students, self.handed_in, folder / "home"):
            one.mkdir(parents=True)
        tracker = folder / "home" / "settings" / "@jupyterlab" / "notebook-extension" / "tracker.jupyterlab-settings"
        tracker.parent.mkdir(parents=True)
        tracker.write_text('{"windowingMode": "none"}', encoding="utf-8")  # every cell in the page

    def environment(self, package=None, **more):
        """Of a process that has one package, the handed-out one unless said, and settings of nobody's own."""
        homes = ("CONFIG_DIR", "DATA_DIR", "RUNTIME_DIR")
        own = {f"JUPYTER_{name}": str(self.folder / "home" / name.lower()) for name in homes}
        own |= {"JUPYTERLAB_SETTINGS_DIR": str(self.folder / "home" / "settings")}
        own |= {"PYTHONPATH": str(package or self.installed), "IPYTHONDIR": str(self.folder / "home" / "ipython")}
        left = {name: text for name, text in os.environ.items() if not name.startswith("PASTRYLAB_")}
        return {**left, **own, **more}

    def typed(self, *words):
        """What a command of the instructor's says; it must go well."""
        command = [sys.executable, "-m", "pastrylab", *map(str, words)]
        environment = self.environment(_ROOT, PASTRYLAB_WORKBOOK=str(self.teaching))
        done = subprocess.run(command, cwd=self.folder, env=environment, capture_output=True, text=True, check=False)
        assert done.returncode == 0, (words, done.stdout[-2000:], done.stderr[-2000:])
        return done.stdout

    def install(self, what):
        """As the line on the hand-out does, but for fetching: what it needs is there."""
        command = [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--no-index", "--upgrade", "--target"]
        environment = {**os.environ, "PIP_DISABLE_PIP_VERSION_CHECK": "1", "PIP_ROOT_USER_ACTION": "ignore"}
        subprocess.run([*command, str(self.installed), str(what)], check=True, env=environment)

    def update(self, *folders, package=None):
        """Working copies made or brought up to date, as `pastrylab open` does before it opens."""
        command = [sys.executable, "-c", _UPDATED, *map(str, folders)]
        subprocess.run(command, cwd=self.folder, env=self.environment(package), check=True, stdout=subprocess.DEVNULL)

    def hand_out(self, students):
        """The instructor's hand-out, installed over what was there; every copy is brought up to it."""
        out = self.folder / "hand-out"
        before = set(out.glob("*.whl"))
        self.typed("handout", "--out", out)
        (wheel,) = set(out.glob("*.whl")) - before
        self.install(wheel)
        self.update(*map(self.place, students))

    def place(self, student):
        return self.students / f"{student.number:03d}"

    def change(self):
        """New values and a word for one section, in mid-term."""
        path = self.teaching / "datasets" / "exercise_values.csv"
        text = path.read_text(encoding="utf-8")
        assert text.count(ROW) == 1
        path.write_text(text.replace(ROW, LATE_ROW), encoding="utf-8")
        self.words(f"C,{WORD_OF_C}\n")

    def words(self, more=""):
        (self.teaching / "datasets" / "term.csv").write_text(
            f"section,word\neverybody,{WORD}\n{more}", encoding="utf-8"
        )


class Server:
    """JupyterLab or the pages, in a process of its own until `stop`."""

    def __init__(self, command, folder, environment):
        self.said = folder / f"server-{time.monotonic_ns()}.txt"
        with open(self.said, "wb") as out:
            self.process = subprocess.Popen(command, cwd=folder, env=environment, stdout=out, stderr=out)
        for _ in range(400):
            time.sleep(0.25)
            found = re.search(r"(http://127\.0\.0\.1:\d+)/\S*token=(\w+)", self.said.read_text("utf-8", "replace"))
            if found:
                self.base, self.token = found.groups()
                return
        self.stop()
        raise AssertionError(self.said.read_text("utf-8", "replace")[-2000:])

    def stop(self):
        self.process.terminate()
        try:
            self.process.wait(30)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()


def pages_of(term):
    """One server for the copies of all: each page's kernel finds the copy that its lesson lies in."""
    settings = term.installed / "pastrylab" / "desk" / "_lab"
    command = [sys.executable, "-m", "pastrylab.desk.served", "jupyterlab", "--no-browser", "--allow-root"]
    paths = {"JUPYTER_CONFIG_PATH": str(settings), "JUPYTER_PATH": str(settings / "share")}
    return Server([*command, f"--ServerApp.root_dir={term.students}"], term.students, term.environment(**paths))


def lab_of(term, student):
    command = [sys.executable, "-m", "pastrylab", "open", "--no-browser", "--folder", str(term.place(student))]
    return Server(command, term.folder, term.environment())


class Screen:
    """One student in front of a browser."""

    asleep = []  # of all: pages that did not wake at once

    def __init__(self, term, student, browser, pages):
        self.term, self.student, self.browser, self.pages = term, student, browser, pages

    async def half(self, half, values):
        """Number, lessons, hand-in."""
        one = self.student
        lab = await asyncio.to_thread(lab_of, self.term, one) if one.through == "lab" else None
        context = await self.browser.new_context(viewport={"width": 1280, "height": 900}, accept_downloads=True)
        context.set_default_timeout(_WAIT)
        try:
            if (one.named, half) in {("at first", 0), ("in mid-term", 1)}:
                page = await self.opened(context, "00", lab)
                await self.say_number(page)
                await self.closed(page)
            for lesson in one.lessons[half]:
                page = await self.opened(context, lesson, lab)
                for act in acts(one, half, lesson, values):
                    await self.act(page, lesson, *act)
                if half or lesson == "01" or one.early_copy:
                    await self.hand_in(page, lesson)
                await self.closed(page)
        finally:
            await context.close()
            if lab:
                await asyncio.to_thread(lab.stop)

    async def opened(self, context, lesson, lab):
        page, name = await context.new_page(), _LESSONS[lesson]
        if lab:
            await page.goto(f"{lab.base}/doc/tree/lessons/{name}.ipynb?token={lab.token}")
            idle = page.locator("#jp-main-statusbar").get_by_text(re.compile(r"Python 3.*\| Idle"))
            await idle.first.wait_for()
            await page.get_by_role("menuitem", name="Run", exact=True).click()
            await page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
        else:
            where = f"{self.student.number:03d}/lessons/{name}.ipynb"
            address = f"{self.pages.base}/voila/render/{where}?token={self.pages.token}"
            while not await self.awake(page, address):
                pass
        await page.get_by_label("Your class number").last.wait_for()
        return page

    async def awake(self, page, address):
        """Whether a page without code woke up; one that stays asleep is counted, and a reader opens it again."""
        await page.goto(address, timeout=_WAIT)
        try:
            await page.get_by_label("Your class number").last.wait_for(timeout=_WAIT / 3)
        except TimeoutError:
            dead = await page.get_by_text("model not found").count()
            self.asleep.append((self.student.number, address, dead))
            print(*self.asleep[-1], file=sys.stderr, flush=True)
            assert sum(address == one[1] for one in self.asleep) < _AGAIN, address
            return False
        return True

    async def closed(self, page):
        """The page is left, and with it goes its kernel; in JupyterLab it goes with the server."""
        await page.goto("about:blank")
        await page.close()

    async def say_number(self, page):
        card = page.locator(".jp-OutputArea-output", has=page.get_by_role("button", name="Use it"))
        await card.get_by_label("Your class number").fill(self.student.called)
        await card.get_by_label("Section, if there are several").fill(self.student.section)
        await card.get_by_role("button", name="Use it").click()
        await card.get_by_text("Your exercises use values drawn for").wait_for()

    def lines(self, lesson):
        path = self.term.place(self.student) / "lessons" / "my-answers" / f"{lesson}.jsonl"
        return path.read_bytes().count(b"\n") if path.is_file() else 0

    async def act(self, page, lesson, which, text, good, half):
        """Type an answer and press Check, or open the worked solution: a line is kept, and the page says what it is worth."""
        card = page.locator(".jp-OutputArea-output", has=page.get_by_text(TITLES[which], exact=True)).last
        kept = self.lines(lesson)
        if text is None:
            await card.get_by_role("button", name="Worked solution", exact=True).click()
        else:
            await card.get_by_role("textbox").first.fill(text)
            await card.get_by_role("button", name="Check", exact=True).click()
        for _ in range(600):
            if self.lines(lesson) > kept:
                break
            await asyncio.sleep(0.05)
        assert self.lines(lesson) == kept + 1, (self.student.number, which, text, "kept", self.lines(lesson) - kept)
        if text is not None:
            head = _HEADS.get(good, re.compile("^(Look at the unit|Could not read that)"))
            head = re.compile(f"^{head}") if isinstance(head, str) else head
            try:
                await card.get_by_text(head).first.wait_for(timeout=20_000)
            except Exception as error:
                raise AssertionError((self.student.number, which, text, good, await card.inner_text())) from error
        self.student.typed.append((which, text, good, half, datetime.now()))

    async def hand_in(self, page, lesson):
        """The button on the last card, and the copy that the page saves; it must be the file in the folder."""
        if not self.lines(lesson):
            return
        one = self.student
        card = page.locator(".jp-OutputArea-output", has=page.get_by_role("button", name="Make my file"))
        written = one.called if len(one.by) > 1 else f"{one.number:03d}"
        await card.get_by_label("Your class number").fill(written)
        await card.get_by_label("Section, if there are several").fill(one.section)
        await card.get_by_role("button", name="Make my file").click()
        link = card.get_by_role("link", name="Save a copy")
        await link.wait_for()
        async with page.expect_download() as download:
            await link.click()
        saved = await download.value
        data = Path(await saved.path()).read_bytes()
        assert data == (self.term.place(one) / "hand-in" / saved.suggested_filename).read_bytes()
        name = f"{one.dice.randrange(10**6):06d} {saved.suggested_filename}"
        place = self.term.handed_in / ("a download", "section " + one.section, ".")[one.number % 3]
        place.mkdir(exist_ok=True)
        (place / name).write_bytes(data)


async def half_a_term(term, students, half, values):
    """All of a class, three at a time."""
    found = next(path for name in _NAMES if (path := shutil.which(name)))
    pages, gate, done = pages_of(term), asyncio.Semaphore(_AT_ONCE), 0

    async def sit_down(one, browser):
        nonlocal done
        async with gate:
            await Screen(term, one, browser, pages).half(half, values)
        done += 1
        print(f"half {half + 1}: {done} of {len(students)}, {_minutes():.1f} CPU min here", file=sys.stderr, flush=True)

    try:
        async with async_playwright() as playwright:
            browser = await playwright.chromium.launch(executable_path=found, headless=True, args=_FLAGS)
            await asyncio.gather(*(sit_down(one, browser) for one in students))
            await browser.close()
    finally:
        pages.stop()


def packed(term):
    """One of the folders becomes one big download, as a page for hand-ins gives it."""
    folder = term.handed_in / "a download"
    if folder.is_dir():
        with zipfile.ZipFile(term.handed_in / "all of them.zip", "w") as archive:
            for path in sorted(folder.iterdir()):
                archive.write(path, f"submissions/{path.name}")
        shutil.rmtree(folder)


def marked(term, members, due):
    """The command an instructor types; rows of lessons.csv, gradebook.csv and flags.csv as dicts."""
    roll, rules = term.folder / "list.csv", term.folder / "rules.csv"
    rows = [f"{n},Invented {n},{one.section},{_extra_days(n)}\n" for n, one in members.items()]
    roll.write_text("number,name,section,extra days\n" + "".join(rows), encoding="utf-8")
    heads = "lesson,due,right_first,right_later,after_solution,off_a_day,last_day\n"
    rules.write_text(f"{heads}01,,4,3,2,10,\n08,{due:%Y-%m-%d %H:%M},4,3,2,10,\n", encoding="utf-8")
    given = ("--class", roll, "--out", term.marks, "--values", term.folder / "hand-out" / "values", "--rules", rules)
    print(term.typed("mark", term.handed_in, *given, "--explain", "all"), file=sys.stderr)
    return [
        list(csv.DictReader((term.marks / name).read_text("utf-8-sig").splitlines()))
        for name in ("lessons.csv", "gradebook.csv", "flags.csv")
    ]


def _extra_days(number):
    return 7 if number % 7 == 0 else ""


def compared(members, rows, due):
    """[(number, lesson, reckoned, marked)] of every row that is not as reckoned, and how many figures were compared."""
    found = {(row["number"], row["lesson"]): row for row in rows}
    apart, figures = [], 0
    for number, one in members.items():
        for lesson in OF_LESSON:
            late_after = due if lesson == "08" and not _extra_days(number) else None
            mine = row_of(one, lesson, late_after)
            its = found.pop((str(number), f"lesson {lesson}"))
            theirs = {name: type(value)(float(its[name])) for name, value in mine.items()}
            figures += len(mine)
            apart += [(number, lesson, mine, theirs)] if mine != theirs else []
    apart += [(*key, None, row) for key, row in found.items() if row["tried"] != "0"]
    return apart, figures


def _minutes():
    """CPU minutes of this process and of those it has waited for."""
    return sum(os.times()[:4]) / 60


def next_minute():
    """The minute that begins next, when it has begun and some seconds are over: a due date between two halves."""
    due = (datetime.now() + timedelta(minutes=1)).replace(second=0, microsecond=0)
    time.sleep((due - datetime.now()).total_seconds() + 5)
    return due


def a_term(folder, count):
    """Go through it all; returns what was found, as a dict."""
    began, students = time.monotonic(), class_of(count)
    term = Term(folder)
    members = dict(sorted((number, one) for one in students for number in one.by))
    term.update(term.teaching, package=_ROOT)
    term.words()
    values = [values_of(term.teaching / "datasets" / "exercise_values.csv")]
    term.hand_out(students)
    asyncio.run(half_a_term(term, students, 0, values))
    due = next_minute()
    term.change()
    values.append(values_of(term.teaching / "datasets" / "exercise_values.csv"))
    term.hand_out(students)
    asyncio.run(half_a_term(term, students, 1, values))
    packed(term)
    lessons, gradebook, flags = marked(term, members, due)
    apart, figures = compared(members, lessons, due)
    typed = [act for one in students for act in one.typed]
    pair = students[-1].called
    return {
        "students": len(gradebook),
        "in JupyterLab": sum(one.through == "lab" for one in students),
        "answers typed": sum(act[1] is not None for act in typed),
        "solutions opened": sum(act[1] is None for act in typed),
        "pages opened again": len(Screen.asleep),
        "right": sum(act[2] is True for act in typed),
        "figures compared": figures,
        "not as reckoned": apart,
        "flags": [flag for flag in flags if flag["what to look at"] != f"group work: counts for {pair}"],
        "minutes": round((time.monotonic() - began) / 60, 1),
        "CPU minutes": round(_minutes(), 1),
    }


def main():
    command = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    command.add_argument("count", type=int, nargs="?", default=60, help="students (60)")
    command.add_argument("--folder", type=Path, help="a new folder that is kept, to look at what came of it")
    chosen = command.parse_args()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        print(json.dumps(a_term(chosen.folder or Path(folder), chosen.count), indent=1))


if __name__ == "__main__":
    main()
