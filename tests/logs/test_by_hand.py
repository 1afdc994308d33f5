"""Logs made by hand against their truth, counted: none falsely called sound, few sound ones refused or left open."""

import pandas as pd
import pytest
from by_hand import BOWLS, SOUND

from pastrylab.logs import CANNOT_TELL, CONSISTENT, NOT_CONSISTENT, review_log

ANSWER = {CONSISTENT: True, NOT_CONSISTENT: False, CANNOT_TELL: None}


def review(made):
    minutes, degrees, notes = made.readings()
    log = pd.DataFrame({"minutes": minutes, "degC": degrees, "note": notes})
    return review_log(log, made.kind, made.method, made.seeded_at, made.error)


@pytest.mark.parametrize("made", [pytest.param(made, id=made.name) for made in BOWLS])
def test_no_bowl_is_falsely_called_sound_or_unsound(made):
    got = review(made)
    allowed = {
        "sound": (CONSISTENT, CANNOT_TELL),
        "unknowable": (CANNOT_TELL,),
        "unsound": (NOT_CONSISTENT, CANNOT_TELL),
    }
    if made.uncatchable:
        assert got.verdict == CONSISTENT, "it can be caught now: take it from the list of those nobody could know"
    else:
        assert got.verdict in allowed[made.truth], (made.why, got.reasons)


def test_bowls_by_hand_are_counted(count_logs):
    judged = [(made.name, made.truth, ANSWER[review(made).verdict]) for made in BOWLS if not made.uncatchable]
    beyond = [(made.name, made.uncatchable) for made in BOWLS if made.uncatchable]
    found = count_logs("bowls by hand", judged, beyond)
    assert len(judged) >= 60 and found["sound"] == len(SOUND)
    assert found["false pass"] == []
    assert 20 * len(found["false alarm"]) <= found["sound"]
    assert 6 * len(found["undecided"]) <= found["sound"]


def test_a_reader_that_decides(count_logs):
    """Of the unsound bowls most are named so: cannot tell is kept for what cannot be told."""
    unsound = [made for made in BOWLS if made.truth == "unsound" and not made.uncatchable]
    named = [made for made in unsound if review(made).verdict == NOT_CONSISTENT]
    assert len(named) >= 0.8 * len(unsound)


ADVICE = {
    "never seeded: plain cooling": "Write down when the seed goes in",
    "two hours missing of seven": "Read the bowl every few minutes",
    "the first reading is 34": "begin the log at the melt-out",
    "dark at 94 °F for ten minutes": "melting ice",
    "exactly 31.5 for two hours": "Move the probe",
    "ends at 30.0": "Warm the bowl a degree at a time",
    "seed, then two hours at 34.2": "Smear at once",
    "never melted out": "Melt the bowl out",
}


@pytest.mark.parametrize("name", ADVICE)
def test_advice_follows_the_cause(name):
    advice = review(next(made for made in BOWLS if made.name == name)).advice
    assert ADVICE[name] in advice
    assert ("melting ice" in advice) == (ADVICE[name] == "melting ice")
