"""Constants against plain sums: atomic weights of IUPAC (2021, abridged) added up by hand."""

import pytest

from pastrylab.ground import constants

C, H, O = 12.011, 1.008, 15.999  # noqa: E741  (the chemists' names)


@pytest.mark.parametrize(
    ("name", "by_hand"),
    [
        ("WATER_MOLAR_MASS", 2 * H + O),
        ("HEXOSE_MOLAR_MASS", 6 * C + 12 * H + 6 * O),
        ("DISACCHARIDE_MOLAR_MASS", 12 * C + 22 * H + 11 * O),
        ("CITRIC_ACID_MOLAR_MASS", 6 * C + 8 * H + 7 * O),
    ],
)
def test_molar_masses(name, by_hand):
    assert getattr(constants, name) == pytest.approx(by_hand, rel=2e-5)


def test_the_kelvin_scale():
    assert constants.ZERO_CELSIUS == 273.15  # BIPM, SI brochure, 9th edition, 2.3.1
