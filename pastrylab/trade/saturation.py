"""How much of a sugar or polyol the water of a filling holds, each by itself, by temperature.

Sucrose has models of its own in sugars.solubility. Beside other sugars most of these dissolve a little more for each
gram of water, lactose less: taken alone is the careful side for all but lactose.
"""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Saturation:
    """Points (degC, g of dry sugar per 100 g of saturated solution); least: the share of it that is sure to dissolve,
    by the spread of the sources; ready: whether it crystallises without being asked; source.

    >>> [f"{end:.2f}" for end in HOLDS["glucose"].per_water(20.0)]
    ['0.81', '0.91']
    """

    points: tuple[tuple[float, float], ...]
    least: float
    ready: bool
    source: str

    def per_water(self, temperature):
        """(least, most) g per g of water at a temperature in degC. Colder than the table its first line goes on
        straight, which is the careful side of a curve that flattens; warmer, the last figure stands."""
        (first, least_percent), (second, next_percent) = self.points[:2]
        percent = float(np.interp(temperature, *zip(*self.points, strict=True)))
        if temperature < first:
            percent = least_percent - (first - temperature) * (next_percent - least_percent) / (second - first)
        most = percent / (100.0 - percent)
        return self.least * most, most


_READ = "Lowe, Experimental Cookery (read)"
_MEMORY = "from memory, handbooks and suppliers agree to about a tenth"
HOLDS = {
    "glucose": Saturation(
        ((-5.3, 31.75), (22.98, 49.37), (28.07, 52.99), (30.0, 54.64), (40.4, 62.13), (50.0, 70.91)),
        0.9,
        False,
        "as its hydrate, Jackson & Silsbee 1922, Scientific Papers of the Bureau of Standards 437 (abstract read, figures "
        "from memory); Combs & Bele find a tenth less at 20 degC, 49.7 % of the hydrate, in " + _READ,
    ),
    "lactose": Saturation(
        ((0.0, 10.6), (15.0, 14.5), (25.0, 17.8), (39.0, 24.0), (49.0, 29.8)), 1.0, True, "Hudson, in " + _READ
    ),
    "maltose": Saturation(
        ((0.6, 36.1), (21.0, 44.1), (29.6, 48.0), (34.4, 49.6), (43.5, 55.3)), 1.0, False, "Gillis, in " + _READ
    ),
    "fructose": Saturation(((20.0, 78.9), (25.0, 80.3), (30.0, 81.5)), 0.95, False, _MEMORY),
    "galactose": Saturation(((20.0, 32.0), (25.0, 35.0), (30.0, 38.0)), 0.9, True, _MEMORY),
    "erythritol": Saturation(
        ((10.0, 27.0), (20.0, 35.0), (25.0, 36.5), (40.0, 48.0)),
        0.9,
        True,
        "36-37 % at 20-25 degC read, else " + _MEMORY,
    ),
    "mannitol": Saturation(((0.0, 9.5), (20.0, 15.5), (25.0, 18.0), (40.0, 25.0)), 0.9, True, _MEMORY),
    "xylitol": Saturation(
        ((0.0, 54.0), (10.0, 58.0), (20.0, 62.8), (30.0, 68.0), (40.0, 75.0)),
        0.9,
        True,
        "169 g to 100 g of water at room temperature read, else " + _MEMORY,
    ),
    "sorbitol": Saturation(((0.0, 60.0), (10.0, 65.0), (20.0, 68.5), (25.0, 70.2), (40.0, 77.0)), 0.9, False, _MEMORY),
    "citric acid": Saturation(
        ((10.0, 54.0), (20.0, 59.2), (30.0, 64.3), (40.0, 68.6)), 0.95, False, "as an encyclopedia prints it (read)"
    ),
}
HYDRATE_WATER = {"glucose": 0.1}  # g of water that a gram of glucose takes along into its crystals: 18.02 / 180.16

# Beside a syrup saturated with sucrose about half as much lactose dissolves, in proportion below: from memory of
# Nickerson & Moore 1972, Journal of Food Science 37:60.
_CROWDED = 0.5
_SATURATED = 2.0  # g of other sugars per g of water


def holds(name, temperature, others_per_water=0.0):
    """(least, most) grams of a solute that a gram of water holds at a temperature in degC, both None without a limit.

    name: as in solutes.SOLUTES. others_per_water: g of other dissolved sugars per g of water; they count for lactose
    alone. Sources: HOLDS.

    >>> [f"{end:.3f}" for end in holds("lactose", 20.0, others_per_water=2.0)]
    ['0.096', '0.193']
    """
    if name not in HOLDS:
        return None, None
    least, most = HOLDS[name].per_water(temperature)
    if name == "lactose":
        least *= 1.0 - _CROWDED * min(1.0, others_per_water / _SATURATED)
    return least, most


def settled(water, masses, names, temperature, careful=False):
    """What stays dissolved once `names` have crystallised down to saturation: (water, {solute: grams}), plain grams.

    water, masses: what there is, grams and {solute: grams}; temperature: degC. careful: by the least that is sure to
    dissolve. Water goes along into the crystals of glucose.

    >>> free, kept = settled(100.0, {"lactose": 40.0}, {"lactose"}, 25.0)
    >>> f"{kept['lactose']:.0f}"
    '22'
    """
    kept, free = dict(masses), water
    for _ in range(60):  # each round binds less water than the one before
        others = {name: sum(m for key, m in kept.items() if key != name) / free for name in names}
        limits = {name: holds(name, temperature, others[name])[0 if careful else 1] for name in names}
        kept |= {name: min(masses[name], limit * free) for name, limit in limits.items() if limit is not None}
        bound = sum(HYDRATE_WATER.get(name, 0.0) * (masses[name] - kept[name]) for name in names)
        if abs(water - bound - free) < 1e-9 * water:
            break
        free = max(water - bound, 0.05 * water)
    return free, kept
