"""Simulated bowls and pans against the truth of their physics, counted; and each a bowl's sheet read from its text."""

import numpy as np
import pandas as pd
import pytest
from simulated import CREAM, SCENES, bowl, cream

from pastrylab.logs import CANNOT_TELL, CONSISTENT, NOT_CONSISTENT, read_log, review_log
from pastrylab.logs.cream import INSIDE, MISSED, OPEN, check_cooling

ANSWER = {CONSISTENT: True, NOT_CONSISTENT: False, CANNOT_TELL: None, INSIDE: True, MISSED: False, OPEN: None}
EACH = 25


def limits(found):
    assert found["false pass"] == []
    assert 20 * len(found["false alarm"]) <= found["sound"], found["false alarm"]
    assert 6 * len(found["undecided"]) <= found["sound"], found["undecided"]


@pytest.mark.parametrize("seed", [20])
def test_simulated_bowls_are_counted(count_logs, seed):
    rng, judged = np.random.default_rng(seed), []
    for scene in SCENES:
        for number in range(EACH):
            sheet = bowl(rng, scene)
            log = pd.DataFrame({"minutes": sheet.minutes, "degC": sheet.degrees, "note": sheet.notes})
            if number < 4:  # and once more as text, by way of the reader
                read = read_log(sheet.text(rng))
                assert np.abs(read["minutes"] - (sheet.minutes - sheet.minutes[0])).max() < 0.02
                assert np.abs(read["degC"] - sheet.degrees).max() < 0.01
                log = read
            judged.append((f"{sheet.name} {number}", sheet.truth, ANSWER[review_log(log, **sheet.told).verdict]))
    found = count_logs("simulated bowls", judged)
    assert found["sound"] >= 100
    limits(found)
    unsound = [answer for _, truth, answer in judged if truth == "unsound"]
    assert np.mean([answer is False for answer in unsound]) > 0.6


@pytest.mark.parametrize("seed", [9])
def test_simulated_pans_are_counted(count_logs, seed):
    rng, judged = np.random.default_rng(seed), []
    for scene in CREAM:
        for number in range(EACH):
            sheet = cream(rng, scene)
            log = pd.DataFrame({"minutes": sheet.minutes, "degC": sheet.degrees})
            judged.append((f"{scene} {number}", sheet.truth, ANSWER[check_cooling(log, **sheet.told).verdict]))
    found = count_logs("simulated pans of cream", judged)
    assert found["sound"] >= 60
    limits(found)
    missed = [answer for _, truth, answer in judged if truth == "unsound"]
    assert np.mean([answer is False for answer in missed]) > 0.5
