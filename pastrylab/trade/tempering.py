"""Tempering: seed by heat balance, and whether it brings crystals enough.

Heat balance, no stirring heat: what the melted chocolate gives up = what the seed takes up + what bowl and room take.
    c m_h (T_h - T) = m_s [c (T - T_s) + x L] + bowl_loss
c, L, the bands and where the crystals stand: chocolate, with their sources.
"""

import numpy as np

from pastrylab.ground.units import In, Reading, Share, StudentError, takes
from pastrylab.trade.chocolate import (
    SPECIFIC_HEAT,
    TEMPER_LOST,
    band,
    band_floats,
    crystals_stand_to,
    latent_heat,
    wide_band_floats,
)

# What a lesson asks for under this topic; the house itself asks the module where a name stands.
__all__ = [
    "band",
    "crystal_share",
    "crystals_stand_to",
    "heat_to_melt",
    "mixture_temperature",
    "seed_for_crystals",
    "seed_mass",
]

SEED_OF_MELT = (0.20, 0.33)  # common practice, no source: the share of the melt that is weighed in as seed
CRYSTALS_OF_FAT = (0.01, 0.04)  # from memory: crystals a tempered mass needs, as a share of its fat
# From memory (solid fat of cocoa butter): of what was set at 20 degC about a quarter has melted in the cooling band.
_MELTS_IN_THE_COLD = 0.25

_BATCH = In("kg", above=0, example="2 kg")
_SEED = In("kg", at_least=0, example="500 g")
_LOSS = In("kJ", at_least=0, example="5 kJ")


@takes(
    arrays=True,
    returns="kg",
    batch=_BATCH,
    melted_at=Reading(example="45 degC"),
    seed_at=Reading(example="20 degC"),
    target=Reading(example="32 degC"),
    melted_share=Share(),
    bowl_loss=_LOSS,
)
def seed_mass(batch, melted_at, seed_at, target, kind="dark", melted_share=0.9, bowl_loss="0 kJ"):
    """Seed that brings `batch` of melted chocolate from `melted_at` down to `target`, as a mass.

    melted_share: share of the seed that melts on the way, 0.85-0.95 is usual (common practice, no source).
    kind: also a couverture of ingredients.csv, whose cocoa butter then sets the latent heat. bowl_loss: heat that bowl
    and room take meanwhile. Quantities may hold arrays of one shape. Source: heat balance above. Raises StudentError,
    also where seed, target and melt are not in rising order, or the target is too cold for the seed to melt.

    >>> from pastrylab import show
    >>> show(seed_mass("3 kg", "45 degC", "20 degC", "32 degC"), 3)
    '1.03 kg'
    """
    latent = latent_heat(kind)
    _rising(seed_at, target, melted_at)
    if _too_cold(target, kind, melted_share):
        raise _cannot_melt(
            target, kind, melted_share, "a warmer target, or less of the seed melting", "a target in the working band"
        )
    spare = SPECIFIC_HEAT * batch * (melted_at - target) - bowl_loss
    if np.any(np.asarray(spare) < 0):
        raise StudentError(
            f"a bowl loss of {np.max(bowl_loss):.4g} kJ",
            "a loss smaller than the heat the chocolate gives up: this bowl cools below the target without seed",
            "0 kJ",
        )
    return spare / (SPECIFIC_HEAT * (target - seed_at) + melted_share * latent)


@takes(
    returns="degC",
    batch=_BATCH,
    melted_at=Reading(example="45 degC"),
    seed=_SEED,
    seed_at=Reading(example="20 degC"),
    melted_share=Share(),
    bowl_loss=_LOSS,
)
def mixture_temperature(batch, melted_at, seed, seed_at, kind="dark", melted_share=0.9, bowl_loss="0 kJ"):
    """Where the bowl ends up when `seed` is stirred into `batch`: the inverse of seed_mass, a temperature reading.

    Raises StudentError, also where so much cold seed goes in that the stated share of it could not melt.

    >>> from pastrylab import show
    >>> show(mixture_temperature("2 kg", "45 degC", "500 g", "20 degC"), 3)
    '34.8 °C'
    """
    _rising(seed_at, melted_at)
    end = ends_at(batch, melted_at, seed, seed_at, latent_heat(kind), melted_share, bowl_loss)
    if np.any(np.asarray(end) < np.asarray(seed_at)) or _too_cold(end, kind, melted_share):
        raise _cannot_melt(end, kind, melted_share, "less seed, or less of it melting", "a quarter of the melt as seed")
    return end


def ends_at(batch, melted_at, seed, seed_at, latent, melted_share, bowl_loss):
    """The heat balance as it stands, for a curve: degC, without asking whether so much can melt. Floats or arrays.

    latent in kJ/kg, bowl_loss in kJ, masses in kg.

    >>> round(ends_at(2.0, 45.0, 0.5, 20.0, 46.0, 0.9, 0.0), 2)
    34.79
    """
    held = SPECIFIC_HEAT * (batch * melted_at + seed * seed_at)
    return (held - melted_share * latent * seed - bowl_loss) / (SPECIFIC_HEAT * (batch + seed))


def melts_down_to(kind):
    """The coldest bowl, in degC, in which most of the seed can melt: the low end of the cooling band, where new
    crystals come instead. A plain float. Raises StudentError for another kind.

    >>> melts_down_to("dark")
    28.0
    """
    return band_floats(kind)[1][0]


def _too_cold(end, kind, melted_share):
    """Whether a bowl at `end` is too cold for that share of its seed to have melted."""
    cold = np.asarray(end) < melts_down_to(kind) - 1e-9  # a target on the edge comes back from its seed on the edge
    return bool(np.any(cold & (np.asarray(melted_share) > _MELTS_IN_THE_COLD)))


def _cannot_melt(end, kind, melted_share, needed, example):
    return StudentError(
        f"{100 * np.max(melted_share):.3g} % of the seed melting in a bowl that ends at {np.min(end):.1f} °C",
        f"{needed}: below {melts_down_to(kind):g} °C new crystals come, the seed does not melt",
        example,
    )


@takes(returns="kJ", batch=_BATCH, start=Reading(example="20 degC"), end=Reading(example="45 degC"))
def heat_to_melt(batch, start, end, kind="dark"):
    """Heat that takes `batch` of set chocolate from `start` to melted out at `end`: warming plus melting, in kJ.

    Between 30 degC and 34 degC part of the fat is melted already and this sum does not hold. kind: also a couverture of
    ingredients.csv, as in seed_mass. Raises StudentError for a start above 30 degC or an end below 34 degC.

    >>> f"{heat_to_melt('2 kg', '20 degC', '45 degC').m_as('kJ'):.1f} kJ"
    '171.5 kJ'
    """
    latent = latent_heat(kind)
    if np.any(np.asarray(start) > 30) or np.any(np.asarray(end) < TEMPER_LOST):
        raise StudentError(
            f"{np.max(start):.4g} °C to {np.min(end):.4g} °C",
            "set chocolate at the start (30 °C or colder) and melted chocolate at the end (34 °C or warmer)",
            "from 20 °C to 45 °C",
        )
    return batch * (SPECIFIC_HEAT * (end - start) + latent)


@takes(batch=_BATCH, seed=_SEED, melted_share=Share())
def crystal_share(batch, seed, melted_share=0.9):
    """Share of the bowl's fat that is still seed crystal after the seed went in: a plain float.

    Compare it with the 1-4 % of the fat (from memory) that a tempered mass needs. Batch and seed of one chocolate.

    >>> f"{crystal_share('2 kg', '500 g'):.1%}"
    '2.0%'
    """
    return seed * (1 - melted_share) / (batch + seed)


def seed_concerns(batch, melted_at, seed, target, kind, melted_share):
    """What speaks against seeding a bowl like this, as a tuple of sentences without numbers; empty where nothing does.

    Plain floats in kg and degC. Bands: the widest of chocolate_bands.csv; crystals_stand_to. How many crystals a bowl
    needs is from memory, and that half the melt as seed is slow to melt is common practice: both only warn.
    Raises StudentError for another kind.

    >>> seed_concerns(2.0, 45.0, 0.58, 33.0, "dark", 0.9)
    ('The target lies above the working band.',)
    """
    (melt_low, melt_high), _, (work_low, work_high) = wide_band_floats(kind)
    share, crystals = seed / batch, crystal_share.floats(batch, seed, melted_share)
    found = (
        (
            target > crystals_stand_to(kind)[0],
            "At this target the crystals of the seed melt too: no temper will come of it.",
        ),
        (work_high < target <= crystals_stand_to(kind)[0], "The target lies above the working band."),
        (target < work_low, "The target lies below the working band: the bowl will be thick."),
        (melted_at < melt_low, "The bowl is not melted out: old crystals may stand beside those of the seed."),
        (melted_at > melt_high, "The bowl is warmer than its melt-out band: let it cool first."),
        (share > 0.5, "So much seed is slow to melt: let the bowl cool before it goes in, and it needs less."),
        (crystals > CRYSTALS_OF_FAT[1], "It leaves more crystals than a bowl in temper needs: it will be thick."),
        (crystals < CRYSTALS_OF_FAT[0], "It leaves too few crystals to count on: smear, and hold some seed back."),
    )
    return tuple(sentence for holds, sentence in found if holds)


@takes(returns="kg", batch=_BATCH, crystals=Share(), melted_share=Share(at_most=0.999))
def seed_for_crystals(batch, crystals=0.01, melted_share=0.9):
    """Seed that leaves the share `crystals` of the bowl's fat as crystals: the check apart from the heat balance.

    Where a machine cools, the heat balance asks for little seed; this asks whether it brings crystals enough.
    Raises StudentError where the unmelted part of the seed cannot reach that share.

    >>> from pastrylab import show
    >>> show(seed_for_crystals("4 kg", crystals="1 %"), 3)
    '0.444 kg'
    """
    kept = 1 - melted_share
    if np.any(np.asarray(crystals) >= np.asarray(kept)):
        raise StudentError(
            f"{np.max(crystals):.3g} of the fat as crystals",
            f"a share below {np.min(kept):.3g}, what stays unmelted",
            "1 %",
        )
    return crystals * batch / (kept - crystals)


def _rising(*temperatures):
    """The last of (seed, target, melt) or (seed, melt) must be the warmest, the first the coldest."""
    for low, high in zip(temperatures, temperatures[1:], strict=False):
        if np.any(np.asarray(low) >= np.asarray(high)):
            named = "seed, target and melt" if len(temperatures) == 3 else "seed and melt"
            raise StudentError(
                f"{', '.join(f'{np.max(t):.4g} °C' for t in temperatures)} for {named}",
                "temperatures that rise: the seed coldest, the melted chocolate warmest",
                "seed at 20 °C, target 31.5 °C, melt at 45 °C"
                if len(temperatures) == 3
                else "seed at 20 °C, melt at 45 °C",
            )
