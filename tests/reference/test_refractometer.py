"""How low a refractometer reads beside glucose, against the CRC Handbook."""

from pastrylab.trade.sugars import brix_from_refraction
from pastrylab.trade.sugars.refractometer import READS_LOW, READS_LOW_ERROR


def test_glucose_on_the_sucrose_scale(outside):
    outside(
        quantity="points read low for each percent of glucose, 60 % glucose",
        expected=(60.0 - brix_from_refraction(1.4394)) / 60.0,
        got=READS_LOW,
        tolerance=READS_LOW_ERROR,
        source="CRC Handbook 102nd ed., concentrative properties: glucose 60 %, n 1.4394; sucrose scale after ICUMSA",
    )
