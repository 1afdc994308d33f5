"""A bowl through the day: how many loads, what goes into each, when to start melting, what it needs next, how much to
top it up by.

Heat balances with the constants of `chocolate`; drifting is Newton's law of cooling, in `cooling`. A bowl that holds
crystals is topped up without melting them, so a top-up carries sensible heat alone.
"""

import math
from dataclasses import dataclass

from pastrylab.ground import careful
from pastrylab.ground.careful import CANNOT_TELL
from pastrylab.ground.constants import FORM_V_MELTS
from pastrylab.ground.units import In, Quantity, Reading, Share, StudentError, both, takes
from pastrylab.trade.chocolate import SPECIFIC_HEAT, crystals_stand_to, latent_heat, wide_band_floats
from pastrylab.trade.tempering import seed_mass

BOWL = "10 lb"  # common practice, no source: what a small tempering bowl takes

_MASS = In("kg", above=0, example="11 kg")


@dataclass(frozen=True)
class Loads:
    """Fillings of a bowl for an order: how many, and how much goes into each when all are alike.

    >>> loads("11.5 kg", "4.5 kg").count
    3
    """

    count: int
    each: Quantity


@takes(chocolate=_MASS, capacity=In("kg", above=0, example="10 lb"))
def loads(chocolate, capacity=BOWL):
    """How often a bowl of `capacity` is filled for `chocolate`, seed included: Loads, all of one size.

    Capacity: 10 lb (4.5 kg) for a small bowl is common practice, no source. Raises StudentError for no mass.

    >>> from pastrylab import show
    >>> show(loads("12 kg", "4.5 kg").each)
    '4 kg'
    """
    count = math.ceil(chocolate / capacity * (1 - 1e-12))
    return Loads(count, Quantity(chocolate / count, "kg"))


@dataclass(frozen=True)
class Load:
    """One filling: `melt` (leftovers and fresh) is melted out, `seed` is held back. Masses.

    >>> from pastrylab import show
    >>> show(load("4 kg", "45 degC", "20 degC", "31.5 degC", leftovers="800 g").fresh, 3)
    '2.14 kg'
    """

    melt: Quantity
    leftovers: Quantity
    fresh: Quantity
    seed: Quantity

    def __str__(self):
        old = f", {both(self.leftovers.to('g'), 3)} of it leftovers" if self.leftovers.magnitude else ""
        return f"Melt out {both(self.melt.to('g'), 3)}{old}; hold back {both(self.seed.to('g'), 3)} as seed."


@takes(
    total=_MASS,
    melted_at=Reading(example="45 degC"),
    seed_at=Reading(example="20 degC"),
    target=Reading(example="31.5 degC"),
    leftovers=In("kg", at_least=0, example="800 g"),
    melted_share=Share(),
)
def load(total, melted_at, seed_at, target, leftovers="0 kg", kind="dark", melted_share=0.9):
    """What one filling of `total` is made of, by heat balance: a Load.

    Leftovers are melted out, never used as seed and never put into a tempered bowl: nobody knows their crystals.
    Source: heat balance of tempering.seed_mass. Raises StudentError, also where more leftovers come back than the melt
    takes.

    >>> str(load("4 kg", "45 degC", "20 degC", "31.5 degC"))
    'Melt out 2942 g (104 oz); hold back 1058 g (37.3 oz) as seed.'
    """
    per_melt = seed_mass.floats(1.0, melted_at, seed_at, target, kind, melted_share, 0.0)
    melt = total / (1 + per_melt)
    if leftovers > melt:
        raise StudentError(
            f"{leftovers:.4g} kg of leftovers for a melt of {melt:.4g} kg",
            "no more leftovers than are melted out: keep the rest, dry and wrapped, for the next melt",
            f"{math.floor(1000 * melt)} g of leftovers",
        )
    return Load(*(Quantity(mass, "kg") for mass in (melt, leftovers, melt - leftovers, total - melt)))


@takes(
    returns="min",
    start=Reading(example="18 degC"),
    end=Reading(example="45 degC"),
    around=Reading(example="50 degC"),
    halving=In("min", above=0, example="60 min"),
)
def melting_time(start, end, around, halving, kind="dark"):
    """Time in which set chocolate melts out from `start` to `end` in a cupboard at `around`.

    halving: the time in which the same vessel, melted, halves its excess over the room. Newton's law of heating, with
    the latent heat taken up at form V's melting point, 33.8 degC: (halving / ln 2) x [ln((around - start) /
    (around - end)) + (L / c) / (around - 33.8)]. For small pieces in a shallow vessel; a deep or unstirred one takes
    longer. Raises StudentError where start, 33.8 degC, end and around do not rise in this order.

    >>> f"{melting_time('18 degC', '45 degC', '50 degC', '60 min').m_as('hour'):.1f} h"
    '5.3 h'
    """
    latent = latent_heat(kind)
    steps = start, FORM_V_MELTS, end, around
    if any(low >= high for low, high in zip(steps, steps[1:], strict=False)):
        raise StudentError(
            f"{start:g} °C to {end:g} °C in a cupboard at {around:g} °C",
            f"set chocolate below {FORM_V_MELTS:g} °C, an end above it, and a cupboard warmer than the end",
            "from 18 °C to 45 °C in a cupboard at 50 °C",
        )
    warming = math.log((around - start) / (around - end))
    return halving / math.log(2) * (warming + latent / SPECIFIC_HEAT / (around - FORM_V_MELTS))


@dataclass(frozen=True)
class NextStep:
    """What a bowl needs next: a short name, and the sentence for the bench.

    >>> next_step("dark", "33 degC").sentence
    'Above the working band. Smear: if it sets, stir it down at once; if not, seed it again.'
    """

    name: str
    sentence: str


_STEPS = (  # from cold to warm: what a bowl needs where its temperature is known
    NextStep(
        "melt out",
        "Colder than the cooling band: weak crystals have come as well. Melt it out and temper it anew.",
    ),
    NextStep("warm", "Below the working band. Warm it half a degree at a time, stirring, then smear."),
    NextStep("work", "Inside the working band. Smear; if it sets evenly and glossy, work."),
    NextStep(
        "smear first",
        "Above the working band. Smear: if it sets, stir it down at once; if not, seed it again.",
    ),
    NextStep(
        "seed again",
        "Warmer than the crystals stand. Smear; then seed it down to the working band and smear again.",
    ),
)
_MELT_OUT, _WARM, _WORK, _SMEAR = range(4)
_COLD_OR_NOT = NextStep(
    CANNOT_TELL,
    "It may have come colder than the cooling band. Warm it to the working band and smear: sets evenly and glossy, work; "
    "streaks or stays dull, melt it out.",
)
_PROBE_TOO_COARSE = NextStep(
    CANNOT_TELL,
    "With such an error the bowl may be in temper or out of it. Check the probe in crushed ice and water, or take a "
    "finer one; and smear.",
)


@takes(bowl_at=Reading(), probe_error=In("delta_degC", at_least=0, at_most=5, example="0.5 delta_degC"))
def next_step(kind, bowl_at, probe_error="0.5 delta_degC"):
    """What a held bowl of tempered chocolate needs next, from its temperature alone, the smear test deciding.

    Returns NextStep: "melt out", "warm", "work", "smear first", "seed again" or "cannot tell". "seed again" and "melt
    out" are said where they hold at both ends of the probe's error, "work" only where the crystals stand at both; a
    reading just outside the working band is at its edge. Sources: bands in datasets/chocolate_bands.csv, the widest;
    crystals_stand_to. Raises StudentError for another kind, and for an error above 5 degC.

    >>> next_step("milk", "30.5 degC", probe_error="0.5 delta_degC").name
    'work'
    """
    (_, (cold, _), (low, high)) = wide_band_floats(kind)
    stand, lost = crystals_stand_to(kind)

    def needs(degrees):
        """The step of a bowl known to stand at `degrees`."""
        return sum((degrees >= cold, degrees >= low, degrees > high, degrees > lost))

    coldest, warmest = needs(bowl_at - probe_error), needs(bowl_at + probe_error)
    if warmest - coldest > 1:
        return _PROBE_TOO_COARSE
    if (coldest, warmest) == (_MELT_OUT, _WARM):
        return _COLD_OR_NOT
    if (coldest, warmest) == (_WORK, _SMEAR) and not careful.at_most(bowl_at, stand, probe_error):
        return _STEPS[_SMEAR]
    if (coldest, warmest) == (_WARM, _WORK):
        return _STEPS[_WORK]
    return _STEPS[coldest]


@takes(
    returns="kg",
    bowl=In("kg", above=0, example="2 kg"),
    bowl_at=Reading(example="31 degC"),
    top_up_at=Reading(example="45 degC"),
    most=Reading(example="32 degC"),
)
def top_up(bowl, bowl_at, top_up_at, most):
    """Melted-out chocolate at `top_up_at` that brings a tempered bowl from `bowl_at` to `most` and no further: a mass.

    Nothing melts and nothing sets meanwhile, so only the temperatures count. Raises StudentError where they do not
    rise from the bowl to `most` to the top-up.

    >>> from pastrylab import show
    >>> show(top_up("2 kg", "31 degC", "45 degC", "32 degC"), 3)
    '0.154 kg'
    """
    if not bowl_at < most < top_up_at:
        raise StudentError(
            f"a bowl at {bowl_at:g} °C, {most:g} °C at most, a top-up at {top_up_at:g} °C",
            "a bowl cooler than what it may reach, and a top-up warmer",
            "a bowl at 31 °C, 32 °C at most, a top-up at 45 °C",
        )
    return bowl * (most - bowl_at) / (top_up_at - most)


@takes(crystals=Share(), bowl=In("kg", above=0, example="2 kg"), added=In("kg", at_least=0, example="200 g"))
def crystals_after(crystals, bowl, added):
    """Share of the fat that is crystal once `added`, which holds none, is stirred into `bowl`: a plain float.

    That is why a top-up thins a bowl that has thickened, and why too much of it takes the temper away. Raises
    StudentError for anything but a share and masses.

    >>> f"{crystals_after('3 %', '2 kg', '400 g'):.1%}"
    '2.5%'
    """
    return crystals * bowl / (bowl + added)
