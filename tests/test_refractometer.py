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


def test_the_sentence_by_hand_with_what_is_taken_for_granted():
    # 700 g in 1 kg, all inverted (above): 73.684 % solids, all invert, 72.210 expected. A tenth less inverted: 70 x 0.1 x
    # (0.05263 - 0.02105) = 0.221; 2 g of 1000 g: 0.147; 0.003 x 73.684 = 0.221: together 0.346.
    seen = compare_with_scale("700 g", "1 kg", 72.0)
    assert seen.expected_error == pytest.approx(0.3457, abs=5e-4) and seen.reading_error == 0.5
    assert seen.sentence == (
        "By weight the syrup holds 73.7 % solids. With 100 % of its sugar inverted, 74 g in every 100 g of syrup are invert "
        "sugar, so the instrument should show 72.2 ± 0.3 Brix; it shows 72.0 ± 0.5. They agree within their errors."
    )


def test_a_syrup_as_heavy_as_its_sugars_within_the_scale():
    # 700 g all inverted are 736.84 g; the scale is good to 2 g.
    assert compare_with_scale("700 g", "735 g", 95.0).solids == 1
    with pytest.raises(StudentError, match="at least its sugars, 737 g"):
        compare_with_scale("700 g", "734.7 g", 95.0)


@pytest.mark.parametrize(
    ("more", "taken"),
    [
        ({"reading": 0.0}, True),
        ({"reading": 95.0}, True),
        ({"reading": 95.1}, False),
        ({"reading": -0.1}, False),
        ({"reading_error": 0.0}, True),
        ({"reading_error": 5.0}, True),
        ({"reading_error": 5.1}, False),
        ({"reading_error": -0.1}, False),
        ({"inverted_error": 0.5}, True),
        ({"inverted_error": 0.51}, False),
        ({"scale_error": "-1 g"}, False),
        ({"sucrose": "0.5 g", "syrup": "0.9 g"}, True),
        ({"sucrose": "0 g"}, False),
        ({"syrup": "0 g"}, False),
    ],
)
def test_what_is_compared_has_two_sides(more, taken):
    asked = {"sucrose": "700 g", "syrup": "1 kg", "reading": 72.0, **more}
    if taken:
        assert compare_with_scale(**asked).sentence
    else:
        with pytest.raises(StudentError):
            compare_with_scale(**asked)
