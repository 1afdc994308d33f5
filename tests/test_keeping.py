"""A reading beside an estimate: what counts, where to look, what is refused."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade import keeping

ESTIMATE = keeping.Estimate(0.86, 0.83, 0.89, "Estimated.")


@pytest.mark.parametrize(
    ("reading", "error", "agrees", "says"),
    [
        (0.87, 0.015, True, "agree within their errors"),
        (0.90, 0.015, True, "agree within their errors"),
        (0.905, 0.015, True, "agree within their errors"),
        (0.91, 0.015, False, "higher than the estimate's error allows"),
        (0.81, 0.015, False, "lower than the estimate's error allows"),
    ],
)
def test_reading_beside_an_estimate(reading, error, agrees, says):
    found = keeping.against_meter(ESTIMATE, reading, error)
    assert found.agrees is agrees and says in found.sentence
    assert found.gap == pytest.approx(reading - 0.86)
    assert str(found).endswith(keeping.CAUTION)


@pytest.mark.parametrize(
    ("estimate", "reading", "error"),
    [
        (0.86, 0.87, 0.015),
        (ESTIMATE, 87, 0.015),
        (ESTIMATE, 0.87, 0.5),
        (ESTIMATE, "wet", 0.01),
        (ESTIMATE, 0.87, -0.01),
    ],
)
def test_refuses_a_bare_estimate_a_percentage_and_a_wild_error(estimate, reading, error):
    with pytest.raises(StudentError):
        keeping.against_meter(estimate, reading, error)
