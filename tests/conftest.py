"""Shared by all tests: the table of outside checks, and a workbook folder of one's own."""

import math

import pytest
from hypothesis import settings

# A machine that is busy is not a fault of what it works out.
settings.register_profile("patient", deadline=None)
settings.load_profile("patient")

_CHECKS = []


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


@pytest.fixture
def own_workbook(tmp_path, monkeypatch):
    """An empty workbook folder of the test's own, so that no answer lands in the checkout."""
    (tmp_path / "lessons").mkdir()
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))
    return tmp_path


def pytest_terminal_summary(terminalreporter):
    if not _CHECKS:
        return
    line = terminalreporter.write_line
    terminalreporter.section(f"{len(_CHECKS)} outside checks")
    line(f"{'quantity':62.62} {'expected':>14.14} {'got':>14.14} {'tolerance':>10.10}  source")
    for quantity, expected, got, tolerance, source, fine in sorted(_CHECKS, key=lambda c: str(c[0])):
        mark = " " if fine else "!"
        line(f"{mark}{quantity:61.61} {expected!s:>14.14} {got!s:>14.14} {tolerance!s:>10.10}  {source[:110]}")
