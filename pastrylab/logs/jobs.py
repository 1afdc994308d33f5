"""What a log of a job can look like. Where a log leaves its unit or its times open, this decides, or leaves it open.

All limits are common practice, no source. They are wide on purpose: what they let pass in two ways is asked about, and
the speeds lean to the careful side, so that a slow fall is never taken for a fast one without asking.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Job:
    """A job whose temperatures are logged. Temperatures in degC, times in minutes.

    words: pattern of the words by which a header names its vessel. span: where its readings lie by and large. warm: every
    log of it comes to that. never: readings beyond it are no readings of it. around: what it cools towards at the
    coldest; halving: least and most minutes in which its excess over that halves. longest_step: the usual step between
    two readings is no longer. shortest, longest: how long a log runs. unsaid: as span, for a log that names no unit.
    """

    name: str
    vessel: str
    words: str
    span: tuple[float, float]
    warm: float
    never: tuple[float, float]
    around: float
    halving: tuple[float, float]
    longest_step: float
    shortest: float
    longest: float
    unsaid: tuple[float, float] | None = None


CHOCOLATE = Job(
    name="chocolate in work",
    vessel="bowl",
    words=r"choc|bowl|couverture|kettle|melter",
    span=(10.0, 70.0),
    warm=27.0,
    never=(-30.0, 90.0),
    around=18.0,
    halving=(2.0, 420.0),
    longest_step=240.0,
    shortest=3.0,
    longest=1440.0,
)
CREAM = Job(
    name="cooling cream",
    vessel="pan",
    words=r"cream|milk|ganache|custard|\bpan\b|\bpot\b|\bcore\b|product",
    span=(0.0, 100.0),
    warm=30.0,
    never=(-3.0, 105.0),
    around=0.0,
    halving=(5.0, 1440.0),
    longest_step=240.0,
    shortest=3.0,
    longest=2880.0,
)
# A number from 0 to 32 is a store room's in °C alone, one from 32 to 90 in °F alone. A log of less than an hour is none. Its
# own reader leaves out what no store can be: the codes of sensors that start anew.
STORE = Job(
    name="a store room",
    vessel="store room",
    words=r"store|room|\bair\b|ambient|cellar|cupboard|cabinet|fridge|refrigerator",
    span=(-30.0, 35.0),
    warm=0.0,
    never=(-100.0, 200.0),
    around=-30.0,
    halving=(0.0, 1e9),
    longest_step=2 * 1440.0,
    shortest=60.0,
    longest=3 * 366 * 1440.0,
    unsaid=(0.0, 32.0),
)
# As of a store room: nobody doubts the scale of a cold tray, and its speed is what is asked for.
TRAY = Job(
    name="a tray out of the cold",
    vessel="tray",
    words=r"tray|piece|bonbon|chocolate|\bbar\b|praline|\bcore\b|surface|probe",
    span=(-30.0, 35.0),
    warm=0.0,
    never=(-45.0, 60.0),
    around=-30.0,
    halving=(0.0, 1e9),
    longest_step=240.0,
    shortest=3.0,
    longest=2880.0,
    unsaid=(0.0, 32.0),
)
