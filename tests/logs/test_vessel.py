"""Which column is the bowl's, case by case as a person would choose."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.logs.jobs import CHOCOLATE, CREAM
from pastrylab.logs.vessel import SeveralColumns, choose, others


def chosen(names, rows, able=(1, 2), job=CHOCOLATE, asked=None, head=None):
    readings = [(n, tuple(row)) for n, row in enumerate(rows, start=2)]
    return choose(able, names, names if head is None else head, readings, job, asked)


PLAIN = ["time", "T1 °C", "T2 °C"]


def test_one_column_needs_no_word():
    assert chosen(["time", "T1"], [("0", "45")], able=(1,)) == (1, "")
    with pytest.raises(SeveralColumns, match="of which none names the bowl") as error:
        chosen(["time", "room", "fridge"], [("0", "45", "5")], able=())
    assert error.value.columns == ("room", "fridge")


@pytest.mark.parametrize("asked", ["T2 °C", "t2_°c", "  t2   °C ", "column 3", "Column 3", "3", 3])
def test_a_column_that_is_asked_for_by_name_or_number(asked):
    assert chosen(PLAIN, [("0", "45", "46")], asked=asked) == (2, " You chose it.")


def test_a_column_that_is_not_there():
    with pytest.raises(StudentError) as error:
        chosen(PLAIN, [("0", "45", "46")], asked="z" * 50)
    assert error.value.given == f"no column '{'z' * 40}'" and error.value.example == "'time', 'T1 °C', 'T2 °C'"
    with pytest.raises(StudentError):
        chosen(PLAIN, [("0", "45", "46")], asked="0")


def test_the_same_said_in_fahrenheit_is_one_column():
    names = ["time", "T1 (°F)", "T1 (°C)"]
    # 45 degC = 113 degF, 31.5 degC = 88.7 degF.
    said = (2, " The other one says the same in °F.")
    assert chosen(names, [("0", "113", "45"), ("5", "88.7", "31.5")]) == said
    assert chosen(names, [("0", "114", "45"), ("5", "88.7", "31.5")]) == said  # 114 °F are 45.56 °C, off by rounding
    assert chosen(names, [("0", "112", "45"), ("5", "88.7", "31.5")]) == said
    for other in ("114.2", "111.8"):  # 45.67 and 44.33 °C are another reading
        with pytest.raises(SeveralColumns):
            chosen(names, [("0", other, "45"), ("5", "88.7", "31.5")])


def test_the_vessels_name_decides_before_its_warmth():
    names = ["time", "T1 °C", "the_bowl °C"]
    assert chosen(names, [("0", "45", "21"), ("5", "40", "21")]) == (2, " Its name says bowl.")
    with pytest.raises(SeveralColumns) as error:
        chosen(["time", "bowl 1 °C", "bowl 2 °C"], [("0", "45", "46"), ("5", "40", "41")])
    assert error.value.columns == ("bowl 1 °C", "bowl 2 °C") and error.value.given.startswith("several columns")


def test_warmth_decides_where_one_alone_is_ever_warm_enough():
    said = " Of those that hold temperatures it alone is ever as warm as chocolate in work."
    still = [("0", "27", "26.9"), ("5", "27", "26.9")]
    assert chosen(PLAIN, still) == (1, said)  # chocolate comes to 27 °C
    with pytest.raises(SeveralColumns):
        chosen(PLAIN, [("0", "27", "27"), ("5", "27", "27")])
    assert chosen(["time", "T1 °C", "T2 °C"], [("0", "31", "90.1"), ("5", "31", "90.1")]) == (1, said)  # too hot
    with pytest.raises(SeveralColumns):
        chosen(PLAIN, [("0", "31", "90"), ("5", "31", "90")])
    assert chosen(["time", "T1 °F", "T2 °F"], [("0", "80.7", "80.5"), ("5", "80.7", "80.5")]) == (1, said)  # 27.06 °C
    # Where no unit is named either may be meant: 85 is no chocolate's Celsius, but 29.4 °C from Fahrenheit.
    assert chosen(["time", "T1", "T2"], [("0", "85", "20"), ("5", "85", "20")]) == (1, said)
    with pytest.raises(SeveralColumns):
        chosen(["time", "T1", "T2"], [("0", "120", "31"), ("5", "120", "31")])
    assert chosen(PLAIN, [("0", "31", "-"), ("5", "31", "-")]) == (1, said)


def test_cream_freezes_sooner_than_the_probe_can_read():
    said = " Of those that hold temperatures it alone is ever as warm as cooling cream."
    rows = [("0", "80", "80")] * 2
    cold = [("9", "4", "-3.1")] * 2
    assert chosen(PLAIN, rows + cold, job=CREAM) == (1, said)


def test_other_columns():
    assert others(["time", "bowl", "room", "T1", "fridge"]) == [2, 4]


def test_no_bowl_is_colder_than_thirty_below():
    names = ["time", "T1 °F", "T2 °F"]
    # -21.9 °F are -29.9 °C, -22.2 °F are -30.1 °C; three readings of 41 are more than one in twenty.
    with pytest.raises(SeveralColumns):
        chosen(names, [("0", "100", "-21.9")] * 3 + [("9", "100", "100")] * 38)
    assert chosen(names, [("0", "100", "-22.2")] * 3 + [("9", "100", "100")] * 38)[0] == 1
    with pytest.raises(SeveralColumns):
        chosen(names, [("0", "100", "-22.2")] * 2 + [("9", "100", "100")] * 39)
