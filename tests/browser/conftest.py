"""JupyterLab as `pastrylab open` starts it, and a real browser in front of it."""

import os
import re
import shutil
import subprocess
import sys
import threading

import pytest

_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
_SETTINGS = {
    # Every cell in the page: a test looks for what a reader would scroll to.
    "notebook-extension/tracker.jupyterlab-settings": '{"windowingMode": "none"}',
}


def missing(reason):
    """Skip with a plain reason, or fail where a browser is required."""
    if os.environ.get("PASTRYLAB_REQUIRE_BROWSER"):
        pytest.fail(f"PASTRYLAB_REQUIRE_BROWSER is set, but {reason}")
    pytest.skip(reason)


@pytest.fixture(scope="session")
def chromium():
    found = next((path for name in _NAMES if (path := shutil.which(name))), None)
    if not found:
        missing("no Chromium or Chrome was found: the pages were not tried in a browser")
    sync_api = pytest.importorskip("playwright.sync_api")
    with sync_api.sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, headless=True, args=_FLAGS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def lab(tmp_path_factory):
    """(address with its token, folder of the working copy) of a JupyterLab started by `pastrylab open`."""
    home = tmp_path_factory.mktemp("student")
    for name, text in _SETTINGS.items():
        path = home / "settings" / "@jupyterlab" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    # Tests that look at every lesson open them one after another in one page, through the application itself.
    (home / "jupyter_config_dir").mkdir()
    (home / "jupyter_config_dir" / "jupyter_lab_config.py").write_text("c.LabApp.expose_app_in_browser = True\n")
    folders = (
        "JUPYTER_CONFIG_DIR",
        "JUPYTER_DATA_DIR",
        "JUPYTER_RUNTIME_DIR",
        "JUPYTERLAB_WORKSPACES_DIR",
        "IPYTHONDIR",
    )
    env = {
        **os.environ,
        "JUPYTERLAB_SETTINGS_DIR": str(home / "settings"),
        **{name: str(home / name.lower()) for name in folders},
    }
    env.pop("PASTRYLAB_WORKBOOK", None)
    command = [sys.executable, "-m", "pastrylab", "open", "--no-browser"]
    server = subprocess.Popen(
        command,
        cwd=home,
        env=env,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
    )
    said, found = [], threading.Event()

    def listen():
        for line in server.stdout:
            said.append(line)
            if re.search(r"http://(127\.0\.0\.1|localhost):\d+/\S*token=", line):
                found.set()
        found.set()

    threading.Thread(target=listen, daemon=True).start()
    found.wait(90)
    addresses = re.findall(r"http://(?:127\.0\.0\.1|localhost):\d+/\S*token=\w+", "".join(said))
    if not addresses:
        server.kill()
        pytest.fail("pastrylab open printed no address with a token:\n" + "".join(said[-30:]))
    yield addresses[-1], next(home.glob("*workbook*"))
    server.terminate()
    try:
        server.wait(20)
    except subprocess.TimeoutExpired:
        server.kill()


@pytest.fixture
def no_answers(lab):
    """The folder of answers, empty for one test; what was there before is there after."""
    answers, aside = lab[1] / "lessons" / "my-answers", lab[1] / "answers-put-aside"
    answers.mkdir(exist_ok=True)
    answers.rename(aside)
    answers.mkdir()
    yield answers
    shutil.rmtree(answers, ignore_errors=True)
    aside.rename(answers)


@pytest.fixture(scope="session")
def windows(chromium):
    """windows(): another window of one browser, which has read JupyterLab before; it remembers what its console
    complained of."""
    context = chromium.new_context(viewport={"width": 1280, "height": 1000})

    def window():
        page = context.new_page()
        page.complaints = []
        page.on("console", lambda m: page.complaints.append(m.text) if m.type == "error" else None)
        page.on("pageerror", lambda error: page.complaints.append(str(error)))
        return page

    yield window
    context.close()


@pytest.fixture
def page(windows):
    page = windows()
    yield page
    page.close()


@pytest.fixture
def open_lesson(page, lab):
    """Open a lesson in the running JupyterLab, run all of it, and wait until its last widget stands there."""

    def opened(name, last_label):
        address, _ = lab
        page.goto(re.sub(r"/doc/tree/[^?]*", f"/doc/tree/lessons/{name}", address))
        page.locator(".jp-Notebook .jp-Cell").first.wait_for(timeout=90_000)
        # Asked to run before its kernel is there, JupyterLab asks back which kernel to start.
        page.locator("#jp-main-statusbar").get_by_text(re.compile(r"Python 3.*\| Idle")).first.wait_for(timeout=90_000)
        page.get_by_role("menuitem", name="Run", exact=True).click()
        page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
        page.get_by_label(last_label).last.wait_for(timeout=120_000)
        return page

    return opened


_FRESH = """import sys
import ipywidgets
ipywidgets.Widget.close_all()
for name in [name for name in sys.modules if name.startswith("pastrylab")]:
    del sys.modules[name]
%reset -f
"""


_SAVED = """async () => {
    await panel.context.save();
    // What the file lost on its way to the disk is no change by somebody else: saved again, nothing is asked.
    panel.context.model.dirty = true;
    await panel.context.save();
    return document.querySelectorAll('.jp-Dialog').length;
}"""
_DEAD = re.compile(r"model not found|Error displaying widget|Traceback|NameError|Loading widget")


class Desk:
    """One JupyterLab page and one kernel for lesson after lesson: to start either takes longer than to run a lesson.

    saved: the lessons that have run and been saved on this desk, with nothing wrong; showing: the one that lies open.
    """

    def __init__(self, page):
        self.page, self.kernel, self.saved, self.showing = page, None, set(), None

    def show(self, name, width=1280, height=1000):
        """Open a lesson, and run none of it; the one before is closed."""
        if self.showing:
            self.close()
        self.page.set_viewport_size({"width": width, "height": height})
        self.page.complaints.clear()
        self.kernel = self.page.evaluate(
            """async ([path, id]) => {
                const panel = await jupyterapp.commands.execute(
                    'docmanager:open', {path, kernel: id ? {id} : undefined});
                await panel.context.ready;
                await panel.sessionContext.ready;
                panel.node.setAttribute('data-lesson', path);
                window.panel = panel;
                return panel.sessionContext.session.kernel.id;
            }""",
            [f"lessons/{name}", self.kernel],
        )
        self.showing = name

    def open(self, name, by_menu=False):
        """Open a lesson, run all of it, and wait until every widget and picture stands there."""
        self.show(name)
        if by_menu:
            self.page.get_by_role("menuitem", name="Run", exact=True).click()
            self.page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
        else:
            self.page.evaluate("async () => { await jupyterapp.commands.execute('notebook:run-all-cells') }")
        self.page.wait_for_function(
            """() => !panel.node.textContent.includes('Loading widget')
                && [...panel.node.querySelectorAll('.jp-OutputArea-output img')].every(one => one.complete)
                && panel.content.widgets.every(
                    cell => cell.model.type !== 'code' || cell.model.executionCount > 0)""",  # folded, it shows no number
            timeout=60_000,
        )
        loud = self.page.locator('[data-lesson] [data-mime-type="application/vnd.jupyter.stderr"]').all_inner_texts()
        if loud:
            self.close()
        assert loud == []
        if name not in self.saved:
            asleep = not self.page.locator("[data-lesson] .widget-text").count()
            wrong = self.dead() + ["no box to type in"] * asleep
            wrong += ["a question"] * self.page.evaluate(_SAVED)
            if wrong:
                self.close()
            assert wrong == []
            self.saved.add(name)

    def run(self, *cells):
        """Shift-Enter in single code cells of the lesson shown, named by words in them or counted from 0."""
        for cell in cells:
            self.page.evaluate(
                """async cell => {
                    const notebook = panel.content;
                    const all = notebook.widgets.map((w, at) => [w.model, at]).filter(([m]) => m.type === 'code');
                    const found = all.filter(([m], count) => count === cell
                        || (typeof cell === 'string' && m.sharedModel.getSource().includes(cell)));
                    if (found.length !== 1) throw new Error(`${found.length} cells with ${cell}`);
                    notebook.deselectAll();
                    notebook.activeCellIndex = found[0][1];
                    await jupyterapp.commands.execute('notebook:run-cell-and-select-next');
                }""",
                cell,
            )
        # Of the other cells none need have run.
        self.page.wait_for_function("() => !panel.node.textContent.includes('Loading widget')", timeout=60_000)

    def dead(self):
        """What a reader would see of the dead: words, and red."""
        text = self.page.evaluate("() => panel.node.textContent")
        red = self.page.evaluate(
            """() => panel.node.querySelectorAll(
            '[data-mime-type="application/vnd.jupyter.stderr"], [data-mime-type="application/vnd.jupyter.error"]').length"""
        )
        return _DEAD.findall(text) + ["red"] * red

    def complaints(self):
        """What the console complained of since the lesson was opened, but for what was not to be fetched."""
        return [c for c in self.page.complaints if not re.search(r"Failed to load resource|favicon|net::ERR", c)]

    def close(self):
        """Close the lesson unsaved, and leave the kernel as if it had just been started.

        The page goes first: a picture still on it tells its width to a widget that is gone, and the kernel says so in
        the lesson that comes next.
        """
        self.showing = None
        self.page.evaluate(
            """async ([code, id]) => {
                panel.context.model.dirty = false;
                panel.close();
                const kernel = jupyterapp.serviceManager.kernels.connectTo({model: {id, name: 'python3'}});
                await kernel.info;
                await kernel.requestExecute({code, silent: true}).done;
                kernel.dispose();
            }""",
            [_FRESH, self.kernel],
        )


@pytest.fixture
def desk(one_desk):
    """The desk; what a test left open on it is no part of the next one."""
    yield one_desk
    if one_desk.showing:
        one_desk.close()


@pytest.fixture(scope="session")
def one_desk(windows, lab):
    address, _ = lab
    page = windows()
    # A workspace of its own: the tabs left open here are not there in the next test's page.
    page.goto(re.sub(r"/doc/tree/[^?]*", "/lab/workspaces/desk", address))
    page.wait_for_function("window.jupyterapp && jupyterapp.restored.then(() => true)", timeout=90_000)
    page.locator(".jp-Launcher, .jp-Notebook").first.wait_for(timeout=90_000)
    desk = Desk(page)
    yield desk
    page.evaluate("async () => { await jupyterapp.serviceManager.sessions.shutdownAll() }")
    page.close()
