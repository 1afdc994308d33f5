"""One thing that a bowl's log shows: it speaks for temper, against it, or leaves it open.

Every reading may be wrong by the probe's error, and that is taken against the bowl: a larger error never makes a sound
log of a doubtful one.
"""

from dataclasses import dataclass

FOR, AGAINST, OPEN = "for", "against", "open"

CHECK_PROBE = "Check the probe in melting ice (0 °C), and read the bowl in two places after stirring."
READ_MORE = (
    "Read the bowl every few minutes, every quarter of an hour at the least while it is held: only that decides."
)
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
