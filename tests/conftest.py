"""Shared by all tests: their two depths, the table of outside checks, and a workbook folder of one's own."""

import gc
import math
import sys
from pathlib import Path

import pytest
from hypothesis import settings

from pastrylab.ground import files

sys.path.insert(0, str(Path(__file__).parent))
from depth import DEEP, depth  # noqa: E402

# A machine that is busy is not a fault of what it works out; what is drawn is the same every day.
settings.register_profile("patient", deadline=None, derandomize=True, max_examples=depth(40, 100))
settings.load_profile("patient")

_CHECKS = []
_LOGS = []
_LEFT_OUT = []


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config, items):
    """Sweeps marked deep run where PASTRYLAB_DEEP is set, or where a person asks for them with -m."""
    if DEEP or "deep" in config.option.markexpr:
        return
    _LEFT_OUT[:] = [item for item in items if item.get_closest_marker("deep")]
    if _LEFT_OUT:
        items[:] = [item for item in items if not item.get_closest_marker("deep")]
        config.hook.pytest_deselected(items=_LEFT_OUT)


def pytest_collection_finish():
    """What has been read by now stays to the end: nobody need look whether it is still wanted."""
    gc.collect()
    gc.freeze()


@pytest.fixture
def outside():
    """Assert a figure against one from outside the project, and note both for the table at the end of the run."""

    def check(*, quantity, expected, got, tolerance, source):
        exact = tolerance == "exact"
        fine = (
            got == expected
            if exact
            else math.isclose(float(got), float(expected), rel_tol=0, abs_tol=float(tolerance) + 1e-12)
        )
        shown = got if exact else f"{float(got):.6g}"
        _CHECKS.append((quantity, expected, shown, tolerance, source, fine))
        assert fine, f"{quantity}: expected {expected} within {tolerance}, got {got} ({source})"

    return check


@pytest.fixture(scope="session")
def count_logs():
    """Note how a group of labelled logs was judged, for the table at the end of the run: (name, truth, answer) each.

    truth: "sound", "unsound" or "unknowable"; answer: True (consistent, within the limits), False, or None. Returns
    {"false pass": names, "false alarm": names, "undecided": names} and the number of sound logs under "sound". beyond:
    (name, reason) of those no reader could judge.
    """

    def count(group, judged, beyond=()):
        sound = [(name, got) for name, truth, got in judged if truth == "sound"]
        found = {
            "false pass": [name for name, truth, got in judged if truth != "sound" and got is True],
            "false alarm": [name for name, got in sound if got is False],
            "undecided": [name for name, got in sound if got is None],
            "sound": len(sound),
        }
        _LOGS.append((group, len(judged), found, beyond))
        return found

    return count


@pytest.fixture
def one_look():
    """The disk is asked once in a test that works out much and writes nothing."""
    with files.one_look():
        yield


@pytest.fixture
def undrawn(monkeypatch):
    """Pictures are made, moved and told in words, not drawn: for tests of what a page says. `undrawn(picture)` draws one."""
    from pastrylab.page.picture import Picture

    draw = Picture.png
    monkeypatch.setattr(Picture, "png", lambda picture: picture.alt.encode())
    return draw


@pytest.fixture
def own_workbook(tmp_path, monkeypatch):
    """An empty workbook folder of the test's own, so that no answer lands in the checkout."""
    (tmp_path / "lessons").mkdir()
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))
    return tmp_path


@pytest.fixture(autouse=True)
def pages_are_closed():
    """ipywidgets holds every widget ever made, and the figures with it: two gigabytes at the end of a run."""
    held = sys.modules.get("ipywidgets.widgets.widget")
    before = set(held._instances) if held else set()
    yield
    held = sys.modules.get("ipywidgets.widgets.widget")
    for name in set(held._instances) - before if held else ():
        one = held._instances.get(name)
        if hasattr(one, "layout") or hasattr(one, "source"):  # a link too: it holds what it links
            one.close()
        else:  # layouts and styles may be shared by the pages to come, which hold them themselves
            held._instances.pop(name, None)


def pytest_terminal_summary(terminalreporter):
    if not DEEP:
        terminalreporter.write_line(
            f"Quick depth: {len(_LEFT_OUT)} long sweeps left out, others on fewer cases. With PASTRYLAB_DEEP=1 all run."
        )
    if _LOGS:
        _table_of_logs(terminalreporter)
    if not _CHECKS:
        return
    line = terminalreporter.write_line
    terminalreporter.section(f"{len(_CHECKS)} outside checks")
    line(f"{'quantity':62.62} {'expected':>14.14} {'got':>14.14} {'tolerance':>10.10}  source")
    for quantity, expected, got, tolerance, source, fine in sorted(_CHECKS, key=lambda c: str(c[0])):
        mark = " " if fine else "!"
        line(f"{mark}{quantity:61.61} {expected!s:>14.14} {got!s:>14.14} {tolerance!s:>10.10}  {source[:110]}")


def _table_of_logs(terminalreporter):
    line = terminalreporter.write_line
    terminalreporter.section(f"{sum(row[1] for row in _LOGS)} logs with known truth")
    line(f"{'logs':44} {'in all':>7} {'sound':>6} {'false pass':>11} {'false alarm':>12} {'undecided':>10}")
    for group, many, found, beyond in sorted(_LOGS, key=lambda row: row[0]):
        counts = (len(found[key]) for key in ("false pass", "false alarm", "undecided"))
        line("{:44.44} {:7} {:6} {:11} {:12} {:10}".format(group, many, found["sound"], *counts))
        for name, reason in beyond:
            line(f"    nobody could know: {name} ({reason})")
