"""Sheets as people type them, read and judged: what is asked about counts as left open."""

import pytest
from sheets import BOWLS, CREAM, SHEETS

from pastrylab.ground.units import StudentError
from pastrylab.logs import CONSISTENT, NOT_CONSISTENT, read_log, review_log
from pastrylab.logs.cream import INSIDE, MISSED, check_cooling
from pastrylab.logs.jobs import CREAM as CREAM_JOB

ANSWER = {CONSISTENT: True, NOT_CONSISTENT: False, INSIDE: True, MISSED: False}


def answer(sheet):
    """True, False or None; None as well where the reader asks instead."""
    try:
        if sheet.job == "cream":
            return ANSWER.get(check_cooling(read_log(sheet.text, job=CREAM_JOB)).verdict)
        log = read_log(sheet.text)
        return ANSWER.get(review_log(log, "dark", sheet.method, sheet.seeded_at).verdict)
    except StudentError:
        return None


@pytest.mark.parametrize("sheet", [pytest.param(sheet, id=f"{sheet.job}: {sheet.name}") for sheet in SHEETS])
def test_no_sheet_is_falsely_passed_or_refused(sheet):
    got = answer(sheet)
    if sheet.uncatchable:
        assert got is True, "it can be caught now: take it from the list of those nobody could know"
    else:
        assert got is not (sheet.truth == "unsound"), sheet.why
        assert got is None or sheet.truth != "unknowable", sheet.why


@pytest.mark.parametrize(("group", "sheets"), [("sheets of cream", CREAM), ("sheets of bowls", BOWLS)])
def test_sheets_are_counted(count_logs, group, sheets):
    beyond = [(s.name, s.uncatchable) for s in sheets if s.uncatchable]
    found = count_logs(group, [(s.name, s.truth, answer(s)) for s in sheets if not s.uncatchable], beyond)
    assert found["false pass"] == found["false alarm"] == []
    assert 6 * len(found["undecided"]) <= max(found["sound"], 6)


def test_most_slow_pans_are_named_so():
    slow = [sheet for sheet in CREAM if sheet.truth == "unsound" and not sheet.uncatchable]
    assert sum(answer(sheet) is False for sheet in slow) >= 0.7 * len(slow)
