"""How a bowl was made ready, by its log: melted out, cooled without seed, seeded. One pure function a question.

Each takes a Bowl and returns a list of Finding, empty where the question does not arise.
"""

import numpy as np

from pastrylab.ground.careful import above, at_least, at_most
from pastrylab.logs.bowl import EDGE, MACHINE, REWARMED, SEEDED, SLAB, SOFTENED, at_work, falls_by_seed, without_seed
from pastrylab.logs.findings import AGAINST, FOR, OPEN, READ_MORE, SEED_AGAIN, SMEAR_NOW, WARM_UP, Finding
from pastrylab.logs.series import minutes_within
from pastrylab.logs.stages import at

# Minutes that count as brief, and all other limits here: common practice, no source.
UNMELTED = 3.0  # degC below the lowest melt-out in use: below it a bowl was only softened
DIP = 2.0  # minutes in which crystals start without seed
SEED_STANDS = 20.0  # minutes that seed may spend on the way down where it melts
SEED_SHOWS = 2.0  # minutes after a seeding that the least can be seen of it
WHOLE_LOG = "Smear now. Next time begin the log at the melt-out and write down when the seed goes in."
NOTE_SEED = "Smear now. Write down when the seed goes in: that alone shows that there was any."


def route(it):
    """How the bowl was made ready: melted out, or softened only.

    >>> from pastrylab.logs.bowl import bowl
    >>> it = bowl("dark", SEEDED, 0.5, np.array([0.0, 12, 15, 25, 30]), np.array([22.0, 46, 46, 33, 31.6]), ("",) * 5, 15)
    >>> route(it)[0].said
    'Melted out: the peak is 46.0 °C (114.8 °F).'
    """
    if it.method == SOFTENED:
        return _softened(it)
    if it.held_only:
        said = "The log begins with the bowl at work: it shows the keeping of temper, not the making."
        return [Finding(OPEN, said, WHOLE_LOG)]
    peak, (low, high) = float(it.temps.max()), it.bands[0]
    if it.first_hot is None and it.temps[0] >= peak - 1:
        said = f"The log begins at {at(it.temps[0])} and falls: the melt-out is not on it."
        return [Finding(OPEN, said, WHOLE_LOG)]
    if at_most(peak, low - UNMELTED, it.error) and peak < low - UNMELTED - EDGE:
        said = f"Never melted out: the peak is {at(peak)}, so old crystals of any form remain."
        return [Finding(AGAINST, said, f"Melt the bowl out to {at(low)} and temper it afresh.")]
    if it.first_hot is None or not at_least(peak, low - UNMELTED, it.error):
        said = f"The peak is {at(peak)}, short of a melt-out: old crystals may remain."
        return [Finding(OPEN, said, f"If the smear is dull or streaked, melt the bowl out to {at(low)}.")]
    found = [Finding(FOR, f"Melted out: the peak is {at(peak)}.")]
    if peak > high + EDGE:
        found.append(Finding(FOR, f"That is hotter than {at(high)}, the most any text gives: milder next time."))
    return found


def _softened(it):
    stand, lost = it.stands
    low, peak = at_work(it.kind)[0], float(it.temps.max())
    if it.temps[0] >= low:
        return [
            Finding(
                OPEN, f"The log begins at {at(it.temps[0])}: how warm the drops were before is not on it.", WHOLE_LOG
            )
        ]
    if peak < low:
        return [Finding(OPEN, f"The drops came to {at(peak)} only: not soft enough to work.", WARM_UP)]
    if above(peak, lost, it.error) is False or at_most(peak, stand, it.error):
        return [Finding(FOR, f"The drops were never above {at(peak)}: their own crystals are kept.")]
    return []


def dip(it):
    """Whether a bowl without seed came to where crystals start.

    >>> from pastrylab.logs.bowl import bowl
    >>> it = bowl("dark", REWARMED, 0.5, np.arange(0.0, 60, 10), np.array([46.0, 36, 29, 28, 28, 31.5]), ("",) * 6, None)
    >>> dip(it)[0].said
    'Cooled to 28.0 °C (82.4 °F), where crystals start.'
    """
    if it.arrived is None or it.method not in (REWARMED, SLAB):
        return []
    t, temps, top = it.t[it.arrived :], it.temps[it.arrived :], it.bands[1][1]
    coldest, stayed = float(temps.min()), minutes_within(t, temps, -np.inf, top + EDGE)
    if at_most(coldest, top + EDGE, it.error) and stayed >= DIP:
        return [Finding(FOR, f"Cooled to {at(coldest)}, where crystals start.")]
    if it.method == SLAB:
        return _slab(it)
    said = f"Without seed, crystals start at {at(top)} or below; the bowl came to {at(coldest)}"
    if above(coldest, top, it.error):
        return [
            Finding(AGAINST, f"{said}.", f"Cool it to {at(top)} or below, stirring, and warm it to the working band.")
        ]
    return [Finding(OPEN, f"{said}, {stayed:.1f} minutes in all: hardly enough.", SMEAR_NOW)]


def _slab(it):
    """The slab itself is not on the log of the bowl: the fall that its cold chocolate makes is."""
    if falls_by_seed(it) or any("slab" in n.casefold() or "marble" in n.casefold() for n in it.notes):
        return [Finding(FOR, "The cold part comes back from the slab: what the slab did, its smear shows.")]
    said = "The bowl falls as one left to itself: nothing on the log shows the work on the slab."
    return [Finding(OPEN, said, "Smear now. Write down when the slab's chocolate goes back in.")]


def seeding(it):
    """Whether seed went in, when, and whether it stood.

    >>> from pastrylab.logs.bowl import bowl
    >>> it = bowl("dark", SEEDED, 0.5, np.arange(0.0, 60, 10), np.array([46.0, 43, 40, 37, 34, 31.5]), ("",) * 6, None)
    >>> seeding(it)[0].side, seeding(it)[0].decides == NOTE_SEED
    ('open', True)
    """
    if it.method not in (SEEDED, MACHINE) or it.held_only:
        return []
    told, found = it.told, _remelted(it)
    if told is None and (none := without_seed(it.notes)):
        return [*found, Finding(OPEN, f'The log says "{none[:60]}": no seed is on it.', NOTE_SEED)]
    if told is None:
        return [*found, *_unnoted(it)]
    if told > it.t[-1] - SEED_SHOWS:
        said = f"The seed went in at {told:.3g} min, as the log ends: what became of it is not on it."
        return [*found, Finding(OPEN, said, READ_MORE)]
    if it.judged != it.arrived:
        found.append(Finding(FOR, f"Seed went in at {told:.3g} min: from then on the bowl is judged."))
    way = (it.t >= told) & (it.t <= (np.inf if it.arrived is None else it.t[it.judged]))
    lost = it.stands[1]
    stood_warm, maybe = (minutes_within(it.t[way], it.temps[way], edge, np.inf) for edge in (lost, lost - it.error))
    if stood_warm > SEED_STANDS or maybe > 1.5 * SEED_STANDS:
        said = f"The seed spent {maybe:.0f} minutes where it melts, near {at(lost)} or above."
        found.append(Finding(OPEN, said, SMEAR_NOW))
    return found


def _unnoted(it):
    if it.arrived is None:
        return []
    if falls_by_seed(it):
        return [Finding(FOR, "You gave no seeding time: where the bowl falls fastest is an estimate of it.")]
    said = "No note and no time of a seeding, and the bowl falls as one left to itself: the log shows no seed."
    return [Finding(OPEN, said, NOTE_SEED)]


def _remelted(it):
    if it.last_hot is None:
        return []
    told = it.told
    hot = np.arange(len(it.t)) <= it.last_hot
    cooled = np.flatnonzero(hot & (it.temps <= it.stands[1] + EDGE) & (np.arange(len(it.t)) > it.first_hot))
    if told is not None:
        cooled = cooled[it.t[cooled] >= told]
    if not cooled.size:
        return []
    said = f"The bowl was melted out again, until {it.t[it.last_hot]:.3g} min"
    if told is not None:
        return [Finding(AGAINST, f"{said}, after the seeding at {told:.3g} min: that seed is gone.", SEED_AGAIN)]
    return [Finding(OPEN, f"{said}: only seed that went in later counts, and the log names none.", NOTE_SEED)]
