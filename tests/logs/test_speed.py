"""How long a long log takes: a logger that reads every second for a day."""

import time

import numpy as np
import pandas as pd
from depth import depth

from pastrylab.logs import CONSISTENT, read_log, review_log

ROWS = depth(25_000, 100_000)


def quickest(work, times=3):
    """(least CPU seconds, what it gave): on a busy machine only the least tells."""
    took = []
    for _ in range(times):
        start = time.process_time()
        found = work()
        took.append(time.process_time() - start)
    return min(took), found


def test_a_hundred_thousand_rows_take_twice_pandas_and_a_second_and_fewer_their_share(tmp_path):
    minutes = np.arange(ROWS) / 60
    degrees = np.interp(minutes, (0, 20, 30, 45, 60), (22, 46, 46, 32.4, 31.6))
    degrees = np.round(degrees + np.random.default_rng(1).normal(0, 0.1, len(minutes)), 2)
    path = tmp_path / "day.csv"
    pd.DataFrame({"minutes": np.round(minutes, 4), "degC": degrees}).to_csv(path, index=False)
    pandas, _ = quickest(lambda: pd.read_csv(path))
    ours, review = quickest(lambda: review_log(read_log(path), "dark", seeded_at=30))
    assert review.verdict == CONSISTENT
    assert ours <= 2 * pandas + ROWS / 100_000, f"{ours:.2f} s, pandas alone {pandas:.2f} s"


def test_leaping_rows_do_not_hang():
    minutes = np.arange(ROWS) / 60
    degrees = 32 + np.random.default_rng(2).normal(0, 3, len(minutes))
    took, _ = quickest(lambda: review_log(pd.DataFrame({"minutes": minutes, "degC": degrees}), "dark"), times=1)
    assert took < 30 * (ROWS / 100_000) ** 2  # what goes through them all for each takes a sixteenth
