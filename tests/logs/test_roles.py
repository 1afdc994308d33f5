"""Which column is which: by its name, else by what stands in it."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.logs.roles import Roles, by_content, by_header, degrees_in, no_third


def numbered(*rows):
    return [(n, tuple(row)) for n, row in enumerate(rows, start=1)]


def test_the_header_names_them():
    rows = numbered(("1 May", "9:05", "45.5", "stirred"), ("1 May", "9:10", "41", ""))
    found = by_header(("date", "time", "bowl °C", "note"), rows)
    assert (found.time, found.date, found.able) == (1, 0, (2,)) and found.notes == (3, 4, 5, 6, 7, 8)
    # A date alone is the time; a column without a name may be either.
    assert by_header(("date", "bowl °C"), numbered(("2026-05-01 9:05", "45"))).date is None
    assert by_header(("date", "bowl °C"), numbered(("2026-05-01 9:05", "45"))).time == 0
    assert by_header(("x", "y"), numbered(("0", "45"), ("5", "41"))) == Roles(0, tuple(range(2, 7)), None, (1,))


def test_a_running_number_is_no_temperature():
    rows = numbered(("0", "1", "45"), ("5", "2", "41"), ("10", "3", "38"))
    assert by_header(("time", "T1", "T2"), rows).able == (2,)
    for first in ("0", "1"):
        rows = numbered(*((str(5 * k), str(k + int(first)), "45") for k in range(3)))
        assert by_header(("time", "T1", "T2"), rows).able == (2,)
    rows = numbered(("0", "2", "45"), ("5", "3", "41"), ("10", "4", "38"))
    assert by_header(("time", "T1", "T2"), rows).able == (1, 2)
    rows = numbered(("0", "1", "45"), ("5", "2", "41"))  # two numbers run by chance
    assert by_header(("time", "T1", "T2"), rows).able == (1, 2)
    rows = numbered(("0", "1", "45"), ("5", "3", "41"), ("10", "5", "38"))
    assert by_header(("time", "T1", "T2"), rows).able == (1, 2)


def test_what_a_header_lacks_is_said():
    with pytest.raises(StudentError, match="a header without a temperature column: 'time', 'note'"):
        by_header(("time", "note"), numbered(("0", "x")))
    with pytest.raises(StudentError, match="a header without a time column"):
        by_header(("bowl °C", "note"), numbered(("45", "x")))
    with pytest.raises(StudentError, match="row 1, with more columns of numbers"):
        by_header(("time", "bowl"), numbered(("0", "44", "4")))
    assert by_header(("time", "bowl"), numbered(("0", "44", "seed in"))).able == (1,)
    assert by_header(("time", "room"), numbered(("0", "21"))).able == ()


def test_what_stands_in_them_says_it():
    assert by_content(numbered(("0", "45.5"), ("5", "41.0"))) == Roles(0, (), None, (1,))
    rows = numbered(("2026-05-01", "9:05", "45.5", "x"), ("2026-05-01", "9:10", "41.0", ""))
    assert by_content(rows) == Roles(1, (3,), 0, (2,))
    rows = numbered(("1", "9:05", "45.5"), ("2", "9:10", "41.0"))
    assert by_content(rows) == Roles(1, (), None, (2,))
    rows = numbered(("45.5", "9:05"), ("41.0", "9:10"))
    assert by_content(rows) == Roles(1, (), None, (0,))
    # A counter before rising minutes.
    rows = numbered(("1", "0", "45.5"), ("2", "5", "41.0"), ("3", "10", "38.0"))
    assert by_content(rows) == Roles(1, (), None, (2,))
    # Not where the second column does not rise: then the first are the minutes.
    rows = numbered(("1", "45.5", "21.0"), ("2", "41.0", "21.0"), ("3", "38.0", "21.0"))
    assert by_content(rows) == Roles(0, (), None, (1, 2))
    with pytest.raises(StudentError, match="row 1, without a time or a temperature"):
        by_content(numbered(("9:05", "x"), ("9:10", "y")))


def test_decimal_commas_that_cut_a_number_in_two_are_noticed():
    with pytest.raises(StudentError, match="row 1, with more columns of numbers"):
        by_content(numbered(("0", "44", "4"), ("5", "41", "25")))
    assert by_content(numbered(("0", "44", "400"), ("5", "41", "25"))).able == (1, 2)
    assert by_content(numbered(("0", "44", "4.5"), ("5", "41", "25"))).able == (1, 2)


def test_half_of_a_column_says_what_it_is():
    rows = numbered(("9:05", "45", "1"), ("9:10", "41", "x"))
    assert by_content(rows).able == (1, 2)
    rows = numbered(("9:05", "45", "1"), ("9:10", "41", "x"), ("9:15", "40", "y"))
    assert by_content(rows) == Roles(0, (2,), None, (1,))


def test_a_third_number_between_spaces():
    with pytest.raises(StudentError, match="row 2, with more"):
        no_third(numbered(("0", "45"), ("5", "41", "22")))
    assert no_third(numbered(("0", "45"), ("5", "41", "stirred"))) is None


def test_the_unit_of_a_column():
    rows = numbered(("0", "45 C"), ("5", "−3,5 C"), ("9", "-"))
    numbers, unit = degrees_in(1, ("time", "temp °F"), rows)
    assert numbers.tolist() == [45, -3.5] and unit == "degC"  # the cells over the header
    assert degrees_in(1, ("time",), numbered(("0", "45")))[1] is None
    assert degrees_in(1, ("time", "x"), numbered(("0", "45 C"), ("1", "45 F")))[1] is None
    assert degrees_in(1, (), numbered(("0", "113 ℉"), ("1",)))[1] == "degF"
