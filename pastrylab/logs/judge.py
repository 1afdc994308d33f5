"""What speaks for temper in a bowl's log, against it, or leaves it open: one pure function for each question.

Every reading may be wrong by the probe's error, and that is taken against the bowl: a larger error never makes a sound
log of a doubtful one. Minutes that count as brief: common practice, no source.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground.careful import above, at_least, at_most, below, every
from pastrylab.logs.bowl import EDGE, MACHINE, REWARMED, SEEDED, SLAB, SOFTENED, at_work, falls_by_seed, without_seed
from pastrylab.logs.faults import stood
from pastrylab.logs.stages import at

FOR, AGAINST, OPEN = "for", "against", "open"
UNMELTED = 3.0  # degC below the lowest melt-out in use: below it a bowl was only softened
BRIEF_LOSS = 2.0  # minutes above where temper is lost that may leave crystals
BRIEF_WARM = 15.0  # minutes above the working band, or where it depends on the time
BRIEF_COLD = {SEEDED: 2.0, MACHINE: 2.0, SOFTENED: 2.0, REWARMED: 5.0, SLAB: 10.0}  # minutes below the cool band
DIP = 2.0  # minutes in which crystals start without seed
SEED_STANDS = 20.0  # minutes that seed may spend on the way down where it melts
SEED_SHOWS = 2.0  # minutes after a seeding that the least can be seen of it
LONG_STEP = 20.0  # minutes without a reading
FEWEST = 5  # readings

CHECK_PROBE = "Check the probe in melting ice (0 °C), and read the bowl in two places after stirring."
READ_MORE = (
    "Read the bowl every few minutes, every quarter of an hour at the least while it is held: only that decides."
)
WHOLE_LOG = "Smear now. Next time begin the log at the melt-out and write down when the seed goes in."
NOTE_SEED = "Smear now. Write down when the seed goes in: that alone shows that there was any."
SMEAR_NOW = "Smear at once: if it stays wet, seed the bowl again and stir it back into the working band."
SEED_AGAIN = "Seed the bowl again and stir it back into the working band."
WARM_UP = (
    "Warm the bowl a degree at a time, stirring, into the working band. If the smear then stays dull, melt the bowl out "
    "and temper it afresh."
)


@dataclass(frozen=True)
class Finding:
    """One thing a log shows: whether it speaks FOR, AGAINST or leaves it OPEN; the sentence; what to do about it."""

    side: str
    said: str
    decides: str = ""


def by(holds, said, decides=""):
    """A finding by an answer of careful: True speaks for, False against, None leaves it open."""
    return Finding({True: FOR, False: AGAINST, None: OPEN}[holds], said, decides)


def minutes_between(t, temps, low, high):
    """Minutes between two temperatures, with straight lines between the readings; plain arrays, degC."""
    if len(t) < 2:
        return 0.0
    bottom, top = np.minimum(temps[:-1], temps[1:]), np.maximum(temps[:-1], temps[1:])
    inside = np.clip(np.minimum(top, high) - np.maximum(bottom, low), 0, None)
    flat = top == bottom
    share = np.where(flat, (bottom >= low) & (bottom <= high), inside / np.where(flat, 1.0, top - bottom))
    return float(np.sum(share * np.diff(t)))


def probe(it, leaps, still):
    """What the probe's own faults leave open. leaps, still: as faults.jumps and faults.stuck find them."""
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
    """Times without a reading, from the melt-out on: nobody knows what the bowl did."""
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


def route(it):
    """How the bowl was made ready: melted out, or softened only."""
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
    """Whether a bowl without seed came to where crystals start."""
    if it.arrived is None or it.method not in (REWARMED, SLAB):
        return []
    t, temps, top = it.t[it.arrived :], it.temps[it.arrived :], it.bands[1][1]
    coldest, stayed = float(temps.min()), minutes_between(t, temps, -np.inf, top + EDGE)
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
    """Whether seed went in, when, and whether it stood."""
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
    stood_warm, maybe = (minutes_between(it.t[way], it.temps[way], edge, np.inf) for edge in (lost, lost - it.error))
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


def holding(it):
    """After the bowl came to work: too warm or too cold, for how long."""
    if it.arrived is None:
        if it.method == SOFTENED:
            return []
        said = f"The bowl never came down to the working band; it ends at {at(it.temps[-1])}."
        holds = below(it.temps[-1], it.stands[1], it.error)
        seed = "Seed the bowl and stir it down into the working band."
        return [by(False if holds is False else None, said, seed)]
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
    sure, maybe = (minutes_between(t, temps, np.nextafter(lost + side, np.inf), np.inf) for side in (e, -e))
    between = minutes_between(t, temps, min(stand - e, top + EDGE), np.inf)
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
    cold = minutes_between(t, temps, -np.inf, low)
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
    """Where the log ends."""
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
    """In sentences: every stretch, once at work, too warm or too cold for it."""
    if it.arrived is None:
        return ()
    t, temps = it.t[it.judged :], it.temps[it.judged :]
    (_, (cold, _), (_, top)), lost, peak = it.bands, it.stands[1], float(temps.max())
    found = (
        (lost, np.inf, f"above {at(lost)}, up to {at(peak)}"),
        (top + EDGE, lost, f"between the working band and {at(lost)}, up to {at(min(peak, lost))}"),
        (-np.inf, cold - EDGE, f"colder than the cool band, down to {at(float(temps.min()))}"),
    )
    spans = [(minutes_between(t, temps, low, high), where) for low, high, where in found]
    return tuple(f"{minutes:.1f} minutes {where}" for minutes, where in spans if minutes > 0)
