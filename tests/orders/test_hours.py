"""Hours and moments as a person writes them. Expectations: hours × 60 + minutes, days × 1440, by hand."""

import pytest

from pastrylab.ground.errors import StudentError
from pastrylab.trade.orders import read_hours, read_moment


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("8:00-12:30; next day 8:00-12:30", ((480, 750), (1920, 2190))),
        ("8-12", ((480, 720),)),
        ("8.00–12.30\n9h-11h", ((480, 750), (1980, 2100))),
        ("from 8 until 12", ((480, 720),)),
        ("8 am to noon", ((480, 720),)),
        ("8:00 a.m. - 12:30 p.m.", ((480, 750),)),
        ("12 pm to 1:15 pm", ((720, 795),)),
        ("13:00-24:00", ((780, 1440),)),
        ("day 1 8-12; day 3 8-12", ((480, 720), (3360, 3600))),
        ("8-12; closed; 9-11", ((480, 720), (3420, 3540))),
        ("8-12; holiday, 9-11", ((480, 720), (3420, 3540))),
        ("Mon 8-12, Tue closed, Wed 9-11", ((480, 720), (3420, 3540))),
        ("Fri 8-12; Mon 8-12", ((480, 720), (4800, 5040))),
        ("Thursday: 13:00 - 16:00; Friday: 8:00 - 18:30", ((780, 960), (1920, 2550))),
        ("Sat. 8-12", ((480, 720),)),
        ("8-12; Mon 8-12; Tue 8-12", ((480, 720), (1920, 2160), (3360, 3600))),
        ("day 31 8-12", ((43680, 43920),)),
    ],
)
def test_hours_are_read_as_meant(text, hours):
    assert read_hours(text) == hours


@pytest.mark.parametrize(
    "text",
    ["", "closed", "8", "8-8", "12-8", "13-1 pm", "25-26", "8:75-9", "0-13 am", "soon", "8-12 and then some", "day 2 8-12; day 1 8-12",
     "day 40 8-12", "1-5 o", "-3 - 4", "blue 8-12", "9**9-12"],
)  # fmt: skip
def test_what_are_no_hours_is_a_sentence(text):
    with pytest.raises(StudentError) as error:
        read_hours(text)
    assert "Needed" in str(error.value)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [("9:05", 545), ("day 2, 9:05", 1985), ("Day 2 9.05", 1985), ("day 3 at 1 pm", 3660), ("noon", 720), ("0:00", 0)],
)
def test_a_moment_is_read_as_meant(text, minutes):
    assert read_moment(text) == minutes


@pytest.mark.parametrize(
    "text",
    [
        "",
        "late",
        "day 0, 9:00",
        "day 99, 9:00",
        "25:00",
        "9:60",
        "9:61",
        "day 32, 9:00",
        "day 2",
        "-1:00",
        "9:05 or so",
    ],
)
def test_what_is_no_moment_is_a_sentence(text):
    with pytest.raises(StudentError):
        read_moment(text)


def test_noon_has_two_names():
    assert read_hours("8 am to midday") == read_hours("8 am to noon") == ((480, 720),)
    assert read_moment("midday") == 720
