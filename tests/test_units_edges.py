"""A door's defaults, and calls that do not fit it."""

import pytest

from pastrylab.ground.units import In, Q, Share, StudentError, takes


@takes(returns="g", cream=In("g", above=0), part=Share(), extra=In("g"))
def _poured(cream, part="50 %", *, extra="2 g", label=None):
    return cream * part + extra


@pytest.mark.parametrize(
    ("args", "kwargs", "grams"),
    [
        (("100 g",), {}, 52),
        (("100 g", "10 %"), {}, 12),
        (("100 g",), {"part": 0.2, "extra": "1 kg"}, 1020),
        ((), {"cream": "1 kg", "label": "any"}, 502),
    ],
)
def test_defaults_by_place_and_by_name_are_plain_inside(args, kwargs, grams):
    assert _poured(*args, **kwargs).m_as("g") == pytest.approx(grams)
    assert _poured.floats(100.0) == 52 and _poured.floats(100.0, 0.1, extra=0.0) == 10


@pytest.mark.parametrize(
    ("args", "kwargs"),
    [
        (("1 g", "10 %", "1 g", None, 5), {}),
        (("1 g",), {"cream": "2 g"}),
        (("1 g",), {"milk": "2 g"}),
    ],
)
def test_a_call_that_fits_no_door_is_an_error_of_code(args, kwargs):
    with pytest.raises(TypeError):
        _poured(*args, **kwargs)


def test_what_is_missing_or_many_is_said_at_the_door():
    with pytest.raises(StudentError, match=r'nothing for cream.*cream="1 g" or cream=Q\(1, "g"\)'):
        _poured()
    with pytest.raises(StudentError, match="a row of 2 values"):
        _poured(Q([1, 2], "g"))
    with pytest.raises(StudentError):
        _poured("1 g", None)
    with pytest.raises(TypeError, match="no argument"):
        takes(milk=In("g"))(lambda cream: cream)
