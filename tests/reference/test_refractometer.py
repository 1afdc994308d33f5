"""How low a refractometer reads beside glucose, against the CRC Handbook."""

from pastrylab.trade.sugars.refractometer import READS_LOW, READS_LOW_ERROR

# CRC Handbook 102nd ed., concentrative properties, n at 20 degC: sucrose by percent of mass, and glucose at 60 %.
SUCROSE = ((20, 1.3639), (50, 1.4201), (70, 1.4654))
GLUCOSE_60 = 1.4394


def index(brix):
    """The parabola through the three points: 1.3639 + 1.8733e-3 (b - 20) + 7.833e-6 (b - 20)(b - 50)."""
    (a, na), (b, nb), (c, nc) = SUCROSE
    first, second = (nb - na) / (b - a), (nc - nb) / (c - b)
    return na + first * (brix - a) + (second - first) / (c - a) * (brix - a) * (brix - b)


def test_glucose_on_the_sucrose_scale(outside):
    # By hand: 58.8 % of sucrose has 1.43926, 58.9 % 1.43948: glucose at 60 % reads 58.9, 1.1 low, 0.019 a percent.
    assert index(58.8) < GLUCOSE_60 < index(58.9)
    outside(
        quantity="points read low for each percent of glucose, 60 % glucose",
        expected=(60.0 - 58.87) / 60.0,
        got=READS_LOW,
        tolerance=0.0015,
        source="CRC Handbook 102nd ed., concentrative properties: sucrose 20, 50, 70 %, glucose 60 %",
    )


def test_its_error_covers_what_sugar_laboratories_correct_by():
    # From memory: 0.022 for every percent of invert sugar.
    assert abs(0.022 - READS_LOW) < READS_LOW_ERROR < 0.004
