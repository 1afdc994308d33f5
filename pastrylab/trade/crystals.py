"""Cocoa butter as crystals: its six forms, which of them stand at a temperature, how much is solid, how far it shrinks.

Melting points: Wille & Lutton, Polymorphism of cocoa butter, JAOCS 43 (1966) 491-496, in datasets/cocoa_butter.csv. One
cocoa butter was measured; others differ by up to 2 degC. Solid fat by pulsed NMR after tempering: from memory, for
comparing, never for a verdict. Densities: Beckett, Industrial Chocolate Manufacture and Use, 3rd ed. 1999.
"""

from dataclasses import dataclass

import numpy as np

from pastrylab.ground import datasets
from pastrylab.ground.roots import plain
from pastrylab.ground.units import In, Reading, Share, StudentError, takes

# degC, then % solid: lowest, usual, highest. From memory, West African cocoa butter; origins differ more at 30 degC.
SOLID_COCOA_BUTTER = (
    *((10, 85, 90, 95), (15, 80, 85, 90), (20, 70, 76, 82)),
    (25, 60, 70, 74),  # usual: Shukla 1995, from memory; the span is ours
    *((30, 34, 44, 54), (35, 0, 0.5, 2.6)),
)
LIQUID_DENSITY, SOLID_DENSITY = (0.88, 0.90), (0.96, 0.99)  # g/mL, cocoa butter, as printed
REST_DENSITY = 1.53  # g/mL, from memory: what is not fat in chocolate

STAYS, EDGE, FORMS, MELTS, NONE = (
    "was never melted out",
    "at its edge",
    "can form and stands",
    "can form, has melted again",
    "cannot form",
)
LATER = "only out of V, over months"


@dataclass(frozen=True)
class Form:
    """A crystal form on its way through a bowl: its name, melting point and error in degC, and what became of it.

    >>> forms_after("45 degC", "27 degC", "31.5 degC")[4].fate
    'can form and stands'
    """

    name: str
    melts_at: float
    error: float
    what_it_does: str
    fate: str

    @property
    def stands(self):
        """Whether crystals of it may be in the bowl at the end.

        >>> [form.name for form in forms_after("45 degC", "27 degC", "31.5 degC") if form.stands]
        ['V']
        """
        return self.fate in (STAYS, EDGE, FORMS)


@takes(
    melted_to=Reading(example="45 degC"),
    cooled_to=Reading(example="27 degC"),
    warmed_to=Reading(example="31.5 degC"),
)
def forms_after(melted_to, cooled_to, warmed_to):
    """What may stand in a bowl melted out, cooled, and warmed to work: six Form, from I to VI.

    A form melts where the bowl is warmer than its melting point plus its error, and can grow where it is colder by as
    much; between the two it is at its edge. Which forms do grow depends on time and stirring: this says what is
    possible. Form VI does not grow from the melt. Source: Wille & Lutton 1966. Raises StudentError where the
    temperatures are not in the order of the bench.

    >>> {form.name: form.fate for form in forms_after("45 degC", "27 degC", "31.5 degC")}["IV"]
    'can form, has melted again'
    """
    if not cooled_to <= warmed_to <= melted_to:
        raise StudentError(
            f"melted to {melted_to:g} °C, cooled to {cooled_to:g} °C, worked at {warmed_to:g} °C",
            "the coldest for the cooling, the warmest for the melt-out",
            "melted to 45 °C, cooled to 27 °C, worked at 31.5 °C",
        )
    return tuple(
        Form(
            row["form"],
            row["melts_at"],
            row["error"],
            row["what_it_does"],
            _fate(row["form"], row["melts_at"], row["error"], melted_to, cooled_to, warmed_to),
        )
        for row in datasets.cocoa_butter()
    )


def _fate(name, melts_at, error, melted_to, cooled_to, warmed_to):
    if melted_to < melts_at + error:
        return STAYS if melted_to <= melts_at - error else EDGE
    if name == "VI":
        return LATER
    if cooled_to >= melts_at + error:
        return NONE
    if warmed_to >= melts_at + error:
        return MELTS
    return FORMS if max(cooled_to, warmed_to) <= melts_at - error else EDGE


@takes(arrays=True, temperature=Reading(at_least=10, at_most=35, example="20 degC"))
def solid_cocoa_butter(temperature):
    """Share of tempered cocoa butter that is solid at a temperature: (lowest, usual, highest), plain floats or arrays.

    From memory, between 10 and 35 degC: for comparing, not for a verdict. Raises StudentError outside.

    >>> solid_cocoa_butter("20 degC")
    (0.7, 0.76, 0.82)
    """
    at = [row[0] for row in SOLID_COCOA_BUTTER]
    return tuple(plain(np.interp(temperature, at, [row[i] for row in SOLID_COCOA_BUTTER]) / 100) for i in (1, 2, 3))


_DENSITY = In("g/mL", above=0, at_most=25, example="0.89 g/mL")


@takes(liquid=_DENSITY, solid=_DENSITY, solid_share=Share())
def contraction(liquid="0.89 g/mL", solid="0.975 g/mL", solid_share=1.0):
    """Share of its volume that a fat loses as the share `solid_share` of it sets: a plain float.

    The default densities are the middle of those printed for cocoa butter (Beckett 1999). Raises StudentError where the
    solid is lighter than the liquid.

    >>> f"{contraction():.1%}"
    '8.7%'
    """
    if np.any(np.asarray(solid) < np.asarray(liquid)):
        raise StudentError(
            f"{solid:g} g/mL set and {liquid:g} g/mL melted", "the set fat denser", "0.975 g/mL set, 0.89 g/mL melted"
        )
    return solid_share * (1 - liquid / solid)


@takes(fat=Share(), solid_share=Share())
def chocolate_contraction(fat, solid_share=1.0):
    """Share of its volume that chocolate with the share `fat` of cocoa butter loses as it sets: (lowest, middle, highest).

    Only the fat shrinks, and of it the share `solid_share` sets; the span is that of the printed densities. Rest of the
    chocolate: 1.53 g/mL, from memory. Raises StudentError for anything but shares.

    >>> [f"{share:.1%}" for share in chocolate_contraction("35 %")]
    ['3.0%', '4.2%', '5.4%']
    """
    middle = sum(LIQUID_DENSITY) / 2, sum(SOLID_DENSITY) / 2
    pairs = (LIQUID_DENSITY[1], SOLID_DENSITY[0]), middle, (LIQUID_DENSITY[0], SOLID_DENSITY[1])
    return tuple(
        contraction.floats(liquid, solid, solid_share) * fat / liquid / (fat / liquid + (1 - fat) / REST_DENSITY)
        for liquid, solid in pairs
    )


@takes(volume=Share())
def linear(volume):
    """Share of its length that a piece loses when it loses the share `volume` of its volume, evenly: a plain float.

    Raises StudentError for anything but a share.

    >>> f"{linear('4.2 %'):.2%}"
    '1.42%'
    """
    return 1 - (1 - volume) ** (1 / 3)
