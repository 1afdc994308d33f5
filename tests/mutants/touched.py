"""Which test runs which line: the tests of the sound house once, under coverage, each test function by itself."""

import ast
import contextlib
import hashlib
import json
import os
import signal
import sys
import time
from pathlib import Path

import coverage
import hypothesis
import pytest

MOST_SECONDS = 400


class _FirstFaultFound:
    """A test that draws its cases stops at the first that fails: what is the smallest one matters to nobody here."""

    def pytest_sessionstart(self):
        find = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
        hypothesis.settings.register_profile("first fault", deadline=None, phases=find, database=None)
        hypothesis.settings.load_profile("first fault")


class _EachByItself:
    """Notes what each test function runs, {function: {file: lines}}, and how long it takes."""

    def __init__(self, house):
        self.cover = coverage.Coverage(data_file=None, include=[f"{house}/pastrylab/*"], config_file=False)
        self.seconds = {}

    def pytest_sessionstart(self):
        self.cover.start()

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item):
        function, start = item.nodeid.partition("[")[0], time.process_time()
        self.cover.switch_context(function)
        yield
        self.cover.switch_context("")
        self.seconds[function] = self.seconds.get(function, 0.0) + time.process_time() - start

    def found(self, house):
        self.cover.stop()
        data = self.cover.get_data()
        lines = {function: {} for function in self.seconds}
        for file in data.measured_files():
            name = str(Path(file).relative_to(house))
            for line, functions in data.contexts_by_lineno(file).items():
                for function in filter(None, functions):
                    lines[function].setdefault(name, []).append(line)
        return {"seconds": self.seconds, "lines": lines}


def run(house, tests, seconds, watch=None):
    """Run tests in a process of their own in a copy of the house; its exit code, or None when its time was out.

    The process is forked from this one, which has the libraries read and nothing of pastrylab's. watch: a file for what
    each test function runs.
    """
    child = os.fork()
    if not child:
        with open(os.devnull, "w") as nothing:
            os.dup2(nothing.fileno(), 1)
            os.dup2(nothing.fileno(), 2)
        os.chdir(house)
        os.environ.update(PYTHONPATH=str(house), PYTHONDONTWRITEBYTECODE="1")
        sys.path.insert(0, str(house))
        sys.dont_write_bytecode = True
        signal.setitimer(signal.ITIMER_PROF, seconds)  # its own seconds, whatever else the machine does
        options = ["-x", "-q", "-o", "addopts=", "-p", "no:nbval", "-p", "no:cacheprovider", "--import-mode=importlib"]
        watcher = [_EachByItself(house)] if watch else []
        code = int(pytest.main([*options, *tests], plugins=[_FirstFaultFound(), *watcher]))
        if watch:
            Path(watch).write_text(json.dumps(watcher[0].found(house)), encoding="utf-8")
        os._exit(code)
    _child, status = os.waitpid(child, 0)
    return None if os.WIFSIGNALED(status) else os.WEXITSTATUS(status)


def by_file(house, test):
    """{"seconds": {function: s}, "lines": {function: {file: lines}}} of a test file of the sound house, which must pass."""
    kept = _kept(house, test)
    with contextlib.suppress(OSError, ValueError):
        return json.loads(kept.read_text(encoding="utf-8"))
    kept.parent.mkdir(parents=True, exist_ok=True)
    if run(house, [test], MOST_SECONDS, watch=kept) != 0:
        kept.unlink(missing_ok=True)
        raise RuntimeError(f"{test} fails, or takes more than {MOST_SECONDS} s, without any fault")
    return json.loads(kept.read_text(encoding="utf-8"))


def _kept(house, test):
    """Where a file's lines are kept until anything of package, tables or tests changes."""
    files = [
        path for room in ("pastrylab", "datasets") for path in sorted((house / room).rglob("*.*")) if path.is_file()
    ]
    files += [house / test.partition("::")[0], *(house / "tests" / name for name in ("conftest.py", "depth.py"))]
    found = hashlib.sha256(f"{test} {bool(os.environ.get('PASTRYLAB_DEEP'))}".encode())
    for path in files:
        if "__pycache__" not in path.parts:
            found.update(path.read_bytes())
    return Path(os.environ.get("TMPDIR", "/tmp")) / "pastrylab-touched" / f"{found.hexdigest()[:24]}.json"


def span(text, line):
    """The lines of the smallest statement a line stands in, its body left out; None at a module's own level."""
    best = None
    for function in ast.walk(ast.parse(text)):
        if isinstance(function, ast.FunctionDef) and function.lineno <= line <= function.end_lineno:
            for node in ast.walk(function):
                if isinstance(node, ast.stmt) and node is not function and node.lineno <= line <= node.end_lineno:
                    inside = getattr(node, "body", None)
                    end = inside[0].lineno - 1 if inside else node.end_lineno
                    if line <= max(end, node.lineno) and (best is None or node.lineno >= best[0]):
                        best = (node.lineno, max(end, node.lineno))
    return best
