"""How a bowl was kept once it had come to work, by its log, and where the log ends.

Each takes a Bowl and returns a list of Finding, empty where the question does not arise.
"""

import numpy as np

from pastrylab.ground.careful import above, at_most, below, every
from pastrylab.logs.bowl import EDGE, MACHINE, REWARMED, SEEDED, SLAB, SOFTENED, at_work
from pastrylab.logs.findings import AGAINST, CHECK_PROBE, FOR, OPEN, SEED_AGAIN, SMEAR_NOW, WARM_UP, Finding
from pastrylab.logs.series import minutes_within
from pastrylab.logs.stages import at

# Minutes that count as brief, and all other limits here: common practice, no source.
BRIEF_LOSS = 2.0  # minutes above where temper is lost that may leave crystals
BRIEF_WARM = 15.0  # minutes above the working band, or where it depends on the time
BRIEF_COLD = {SEEDED: 2.0, MACHINE: 2.0, SOFTENED: 2.0, REWARMED: 5.0, SLAB: 10.0}  # minutes below the cool band


def holding(it):
    """After the bowl came to work: too warm or too cold, for how long.

    >>> from pastrylab.logs.bowl import bowl
    >>> it = bowl("dark", SEEDED, 0.5, np.array([0.0, 12, 15, 25, 30]), np.array([22.0, 46, 46, 33, 31.6]), ("",) * 5, 15)
    >>> holding(it)[0].said
    'Nothing that melts the crystals after it came to work: the warmest is 31.6 °C (88.9 °F).'
    """
    if it.arrived is None:
        if it.method == SOFTENED:
            return []
        said = f"The bowl never came down to the working band; it ends at {at(it.temps[-1])}."
        holds = below(it.temps[-1], it.stands[1], it.error)
        seed = "Seed the bowl and stir it down into the working band."
        return [Finding(AGAINST if holds is False else OPEN, said, seed)]
    t, temps = it.t[it.judged :], it.temps[it.judged :]
    warm = _warm(it, t, temps)
    peak = float(temps.max())
    fine = (
        []
        if warm
        else [Finding(FOR, f"Nothing that melts the crystals after it came to work: the warmest is {at(peak)}.")]
    )
    return [*warm, *_cold(it), *fine]


def _warm(it, t, temps):
    (stand, lost), e, top = it.stands, it.error, it.bands[2][1]
    peak = float(temps.max())
    sure, maybe = (minutes_within(t, temps, np.nextafter(lost + side, np.inf), np.inf) for side in (e, -e))
    between = minutes_within(t, temps, min(stand - e, top + EDGE), np.inf)
    if sure > 0:
        said = f"{sure:.1f} minutes surely above {at(lost)}, up to {at(peak)}"
        if sure >= BRIEF_LOSS:
            return [Finding(AGAINST, f"{said}: the crystals of form V melt there.", SEED_AGAIN)]
        return [Finding(OPEN, f"{said}: brief, and some crystals may be left.", SMEAR_NOW)]
    if maybe > 0:
        said = f"{maybe:.1f} minutes up to {at(peak)}, and temper is lost above {at(lost)}: within the probe's error"
        return [Finding(OPEN, f"{said} of {e:.2g} °C.", f"{SMEAR_NOW} {CHECK_PROBE}")]
    if between > BRIEF_WARM:
        said = f"{between:.1f} minutes above the working band, up to {at(peak)}"
        return [Finding(OPEN, f"{said}: crystals melt slowly there, and how many depends on the time.", SMEAR_NOW)]
    return []


def _cold(it):
    """Colder than the cool band, from the first coming to work: a later seeding does not mend that."""
    t, temps, low = it.t[it.arrived :], it.temps[it.arrived :], it.bands[1][0] - EDGE
    cold = minutes_within(t, temps, -np.inf, low)
    if cold <= BRIEF_COLD[it.method]:
        return []
    said = f"{cold:.0f} minutes colder than the cool band, down to {at(float(temps.min()))}"
    return [
        Finding(
            OPEN,
            f"{said}: if the bowl was so cold, weak crystals came; if the probe hung in the air, nothing was measured.",
            "Smear in the working band: streaks or a dull film, melt the bowl out and temper it afresh.",
        )
    ]


def end(it):
    """Where the log ends.

    >>> from pastrylab.logs.bowl import bowl
    >>> it = bowl("dark", SEEDED, 0.5, np.array([0.0, 12, 15, 25, 30]), np.array([22.0, 46, 46, 33, 31.6]), ("",) * 5, 15)
    >>> end(it)[0].said
    'It ends in the working band, at 31.6 °C (88.9 °F).'
    """
    last, (low, high) = float(it.temps[-1]), at_work(it.kind)
    if it.arrived is None and it.method != SOFTENED:
        return []
    if low <= last <= high:
        return [Finding(FOR, f"It ends in the working band, at {at(last)}.")]
    if above(last, it.stands[1], it.error):
        return [Finding(AGAINST, f"It ends at {at(last)}, where no temper lasts.", SEED_AGAIN)]
    if last > high:
        return [Finding(OPEN, f"It ends at {at(last)}, above the working band.", SMEAR_NOW)]
    if every((at_most(last, it.bands[1][1] + EDGE, it.error), last <= it.bands[1][1])):
        said = f"It ends at {at(last)}, cooled too far and not rewarmed: crystals of form IV stay."
        return [Finding(AGAINST, said, WARM_UP)]
    return [Finding(OPEN, f"It ends at {at(last)}, below the working band: thick, and not rewarmed.", WARM_UP)]


def excursions(it):
    """In sentences: every stretch, once at work, too warm or too cold for it.

    >>> from pastrylab.logs.bowl import bowl
    >>> it = bowl("dark", SEEDED, 0.5, np.arange(0.0, 60, 10), np.array([46.0, 46, 31.6, 31.6, 36, 31.6]), ("",) * 6, 10)
    >>> excursions(it)
    ('9.1 minutes above 34.0 °C (93.2 °F), up to 36.0 °C (96.8 °F)', '5.0 minutes between the working band and 34.0 °C (93.2 °F), up to 34.0 °C (93.2 °F)')
    """
    if it.arrived is None:
        return ()
    t, temps = it.t[it.judged :], it.temps[it.judged :]
    (_, (cold, _), (_, top)), lost, peak = it.bands, it.stands[1], float(temps.max())
    found = (
        (lost, np.inf, f"above {at(lost)}, up to {at(peak)}"),
        (top + EDGE, lost, f"between the working band and {at(lost)}, up to {at(min(peak, lost))}"),
        (-np.inf, cold - EDGE, f"colder than the cool band, down to {at(float(temps.min()))}"),
    )
    spans = [(minutes_within(t, temps, low, high), where) for low, high, where in found]
    return tuple(f"{minutes:.1f} minutes {where}" for minutes, where in spans if minutes > 0)
