"""The refractometer against the scale: agreement, both kinds of disagreement, refusals."""

import pytest

from pastrylab.ground.units import Q, StudentError
from pastrylab.trade.sugars.refractometer import compare_with_scale


def test_sucrose_alone_reads_its_solids():
    seen = compare_with_scale("700 g", "1000 g", 70.0, inverted=0, inverted_error=0)
    assert seen.expected_brix == pytest.approx(70.0) and seen.agrees


def test_full_inversion_worked_by_hand():
    # 700 g take up 700 x 18.015 / 342.30 = 36.84 g; 73.684 % solids, all invert; 0.020 x 73.684 = 1.474 low.
    seen = compare_with_scale("700 g", "1 kg", 72.2, inverted=1, inverted_error=0)
    assert seen.solids == pytest.approx(0.73684, abs=1e-5)
    assert seen.expected_brix == pytest.approx(72.210, abs=1e-3)


@pytest.mark.parametrize(("reading", "said"), [(72.2, "agree"), (75.0, "higher"), (69.0, "lower")])
def test_verdict(reading, said):
    seen = compare_with_scale(Q(700, "g"), Q(1, "kg"), reading)
    assert said in str(seen) and seen.agrees == (said == "agree")


def test_a_wider_error_makes_a_reading_agree():
    assert not compare_with_scale("700 g", "1 kg", 70.5).agrees
    assert compare_with_scale("700 g", "1 kg", 70.5, scale_error="30 g").agrees


def test_refusals():
    with pytest.raises(StudentError, match="at least its sugars"):
        compare_with_scale("700 g", "700 g", 72)
    with pytest.raises(StudentError, match="reading"):
        compare_with_scale("700 g", "1 kg", 120)


def test_a_third_of_a_point_is_told_where_the_errors_are_small():
    # Expected 72.210 (above), known to 0.003 x 73.684 = 0.221 and read to 0.1: together 0.243.
    small = {"inverted": 1, "inverted_error": 0, "scale_error": "0 g", "reading_error": 0.1}
    said = [
        compare_with_scale("700 g", "1 kg", 72.21 + apart, **small).sentence for apart in (0.23, 0.26, -0.23, -0.26)
    ]
    assert ["agree" in s for s in said] == [True, False, True, False]
    assert "is higher than" in said[1] and "is lower than" in said[3]
