"""Why a piece lets go of its mould or does not, how chocolate flows, and why shells crack: in words, with their figures.

Contraction: cocoa butter fluid 0.88-0.90, solid 0.96-0.99 g/mL (Beckett, 3rd ed. 1999, read in a text that quotes it), so
8.7 % by volume at the middle of both; well-seeded cocoa butter cast at 16 degC drew in by at most about 2 % in length,
nearly all within half an hour (Lovegren & Feuge 1965, JAOCS; abstract read). Cracks: Slettengren 2010, MSc thesis,
Chalmers University of Technology (read): 28 days.
"""

from dataclasses import dataclass

from pastrylab.ground import careful, reference
from pastrylab.ground.careful import CANNOT_TELL
from pastrylab.ground.units import Number, Share, takes

COCOA_BUTTER = (0.89, 0.975)  # g/mL, fluid and set
REST = 1.53  # g/mL, sugar and cocoa together, from memory
MOST_IN_LENGTH = 0.02  # measured for cocoa butter alone


@dataclass(frozen=True)
class Contraction:
    """How much chocolate draws in as it sets, as shares (plain floats): `volume`, `length`; and in words.

    >>> print(str(contraction("35 %")).partition(" A piece")[0])
    About 4.2 % by volume and 1.4 % in length, when all its fat sets: 0.4 mm on 30 mm. Cocoa butter alone, well
    seeded, was measured at 2 % at most.
    """

    volume: float
    length: float

    def __str__(self):
        return (
            f"About {self.volume:.1%} by volume and {self.length:.1%} in length, when all its fat sets: "
            f"{30 * self.length:.1f} mm on 30 mm. Cocoa butter alone, well seeded, was measured at "
            f"{MOST_IN_LENGTH:.0%} at most. {_RELEASE}"
        ).replace("%", " %")


@takes(fat=Share(at_least=0.2, at_most=1, example='0.35 or "35 %"'))
def contraction(fat="35 %"):
    """What chocolate with this share of cocoa butter draws in when all of it sets: a Contraction.

    Computed from densities; the spread of those moves it by several tenths, and chocolate out of temper draws in less.
    Raises StudentError for a share that no chocolate has.

    >>> f"{contraction(1).volume:.1%} by volume for cocoa butter alone"
    '8.7% by volume for cocoa butter alone'
    """
    fluid, firm = (fat / density + (1 - fat) / REST for density in COCOA_BUTTER)
    return Contraction(1 - firm / fluid, 1 - (firm / fluid) ** (1 / 3))


_RELEASE = (
    "A piece that lets go has drawn in all round: look from below, the mould turns from dark to pale where it has come off. "
    "Dark patches that stay: not set yet, or out of temper, a cold or dirty mould, or a wall too thin to pull itself free. "
    "Give it time in the cool, not force."
)


@dataclass(frozen=True)
class Cracks:
    """What is known of shells over a filling of some moisture: `finding`, "little", "some", "most" or "cannot tell", and
    the `sentence`.

    >>> cracks(0.72, 0.015).finding
    'cannot tell'
    """

    finding: str
    sentence: str

    def __str__(self):
        return self.sentence


_FOUND = "Measured once, over 28 days, on one chocolate: at a water activity of"
_DECIDES = "What would decide: ten of your own pieces, kept four weeks and looked at."


@takes(reading=Number(above=0, at_most=1, example="0.85"), error=Number(at_least=0, at_most=0.1, example="0.015"))
def cracks(reading, error=0.015):
    """Whether the moisture of a filling cracked shells where it was measured: Cracks.

    reading: water activity by a meter, with its error. Four fillings were tried: 0.67, 0.78, 0.86, 0.99. Only what lies at
    or below 0.67 is "little", from 0.78 to 0.86 "some", at 0.99 and above "most", at both ends of the error; all else is
    "cannot tell". Nothing here says that a shell will hold. Raises StudentError for no water activity.

    >>> print(cracks(0.82, 0.01))
    Measured once, over 28 days, on one chocolate: at a water activity of 0.78 and 0.86 some shells cracked, far fewer than
    at 0.99. What would decide: ten of your own pieces, kept four weeks and looked at.
    """
    if careful.at_most(reading, 0.67, error):
        return Cracks("little", f"{_FOUND} 0.67 little or nothing cracked. {_DECIDES}")
    if careful.between(reading, 0.78, 0.86, error):
        return Cracks("some", f"{_FOUND} 0.78 and 0.86 some shells cracked, far fewer than at 0.99. {_DECIDES}")
    if careful.at_least(reading, 0.99, error):
        return Cracks("most", f"{_FOUND} 0.99 shells cracked first and most. {_DECIDES}")
    return Cracks(
        CANNOT_TELL,
        f"Between or at the edge of what was tried (0.67, 0.78, 0.86, 0.99), so nobody measured this one. Wetter fillings "
        f"cracked more. {_DECIDES}",
    )


def flow():
    """What a degree, a crystal, cocoa butter, lecithin, particles, tapping do to a chocolate's flow and its wall: a table.

    Directions alone, each row with its source; figures that hold for every chocolate were found nowhere.

    >>> flow().by("cause")["more cocoa butter"]["wall"]
    'thinner'
    """
    return reference.measured("flow")
