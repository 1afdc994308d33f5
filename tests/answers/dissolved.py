"""Sugars in water in plain arithmetic, for lessons 04 and 05: moles, Norrish's water activity, what water holds.

Nothing here calls the package.
"""

import math

# Standard atomic weights, IUPAC 2007: C 12.0107, H 1.00794, O 15.9994.
WATER = 2 * 1.00794 + 15.9994
SUCROSE = 12 * 12.0107 + 22 * 1.00794 + 11 * 15.9994
HEXOSE = 6 * 12.0107 + 12 * 1.00794 + 6 * 15.9994

# g/mol and Norrish's constant: Chirife et al. 1980, from memory; what is longer than maltose in a 42 DE syrup: provisional.
GRAM_MOLE = {"sucrose": SUCROSE, "maltose": SUCROSE, "glucose": HEXOSE, "fructose": HEXOSE, "higher": 773}
NORRISH = {"sucrose": 6.47, "maltose": 4.54, "glucose": 2.25, "fructose": 2.25, "higher": 13.5}


def root(rises, low, high):
    """Where a rising function passes zero, by halving."""
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (low, middle) if rises(middle) > 0 else (middle, high)
    return (low + high) / 2


def _moles(water, sugars):
    """Moles of water and of each sugar, and their sum."""
    of_water = water / WATER
    each = {name: grams / GRAM_MOLE[name] for name, grams in sugars.items()}
    return of_water, each, of_water + sum(each.values())


def activity(water, sugars):
    """Norrish 1966: water's share of the moles times e to minus (sum of root K times share) squared."""
    of_water, each, total = _moles(water, sugars)
    return of_water / total * math.exp(-((sum(NORRISH[n] ** 0.5 * m for n, m in each.items()) / total) ** 2))


def alone(celsius):
    """Grams of sucrose that 100 g of water hold: Charles 1960, International Sugar Journal 62:126, from memory."""
    percent = 64.397 + 0.07251 * celsius + 0.0020569 * celsius**2 - 9.035e-6 * celsius**3
    return 100 * percent / (100 - percent)


def _push(sucrose, others):
    """How hard sucrose in 100 g of water pushes out: log of its share times its activity coefficient.

    The coefficient of a regular solution with Norrish's water: log gamma = -2 root K S + S squared + K taken from a
    liquid sugar, S the sum of root K times share; without K itself, which is the same on both sides.
    """
    _, each, total = _moles(100, {**others, "sucrose": sucrose})
    pull = sum(NORRISH[name] ** 0.5 * moles for name, moles in each.items()) / total
    return math.log(each["sucrose"] / total) + 2 * NORRISH["sucrose"] ** 0.5 * pull - pull**2


def beside(celsius, others):
    """Grams of sucrose that 100 g of water hold beside others (grams to 100 g): where it pushes as hard as alone."""
    full = _push(alone(celsius), {})
    return root(lambda sucrose: _push(sucrose, others) - full, 1e-6, 1000)
