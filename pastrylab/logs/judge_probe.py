"""What a bowl's probe leaves open: its faults, and the times when nothing was read.

Each takes a Bowl and returns a list of Finding.
"""

import numpy as np

from pastrylab.logs.bowl import EDGE
from pastrylab.logs.faults import stood
from pastrylab.logs.findings import CHECK_PROBE, FOR, OPEN, READ_MORE, Finding
from pastrylab.logs.stages import at

# Minutes that count as brief, and all other limits here: common practice, no source.
LONG_STEP = 20.0  # minutes without a reading
FEWEST = 5  # readings


def probe(it, leaps, still):
    """What the probe's own faults leave open. leaps, still: as faults.jumps and faults.stuck find them.

    >>> from pastrylab.logs.bowl import SEEDED, bowl
    >>> from pastrylab.logs.faults import Jump
    >>> it = bowl("dark", SEEDED, 0.5, np.arange(9.0), np.linspace(46, 31.5, 9), ("",) * 9, 3)
    >>> probe(it, (Jump(2.5, 60.0, 19.0), Jump(4.5, 55.0, 17.0)), ())[0].side
    'open'
    """
    t, found = it.t, []
    if leaps:
        said = f"The probe jumps {len(leaps)} times, first at {leaps[0].at:.3g} min to {at(leaps[0].degc)}."
        side = OPEN if len(leaps) > 0.1 * (len(t) + len(leaps)) else FOR
        found.append(Finding(side, said + " Those readings were left out of the review.", CHECK_PROBE))
    long = stood(t, it.temps, still)
    for run in still:
        said = f"The probe shows exactly {at(run.degc)} from {run.start:.3g} to {run.end:.3g} min"
        if run.sure and run.degc < it.bands[0][0] - EDGE:  # above, it held, and then the seed went in
            said += " and then leaps: it was stuck, and the bowl was not measured."
        elif run in long:
            said += ": no bowl stands so still. It may have been stuck, and the bowl not measured."
        else:
            found.append(Finding(FOR, said + ": move it, in case it is stuck."))
            continue
        found.append(Finding(OPEN, said, "Move the probe, stir, and read again, by a second one if you have it."))
    if len(t) < FEWEST:
        found.append(Finding(OPEN, f"{len(t)} readings are too few to see the stages.", READ_MORE))
    return found


def pauses(it):
    """Times without a reading, from the melt-out on: nobody knows what the bowl did.

    >>> from pastrylab.logs.bowl import SEEDED, bowl
    >>> it = bowl("dark", SEEDED, 0.5, np.array([0.0, 5, 10, 40]), np.array([46.0, 42, 38, 31.5]), ("",) * 4, 3)
    >>> pauses(it)[0].said
    'Nothing was read from 10 to 40 min, and much can happen in that.'
    """
    after = it.last_hot or 0
    steps = np.diff(it.t[after:])
    return [
        Finding(
            OPEN,
            f"Nothing was read from {it.t[after + i]:.3g} to {it.t[after + i + 1]:.3g} min, and much can happen in that.",
            READ_MORE,
        )
        for i in np.flatnonzero(steps > LONG_STEP)
    ]
