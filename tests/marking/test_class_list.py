"""Class lists as gradebooks export them, and numbers however they are written."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.school import whose
from pastrylab.school.class_list import class_list
from pastrylab.school.named import number_named


@pytest.mark.parametrize(
    "text", ["17", "017", "0017", " 17 ", "17.", "17.0", "No. 17", "no 17", "#17", "Nr. 017", "１７", 17]
)
def test_one_number_in_every_hand(text):
    assert number_named(text) == "17"


@pytest.mark.parametrize("text", ["17\u200b", "\ufeff17", "\u202d17\u202c", "1\u00ad7"])
def test_what_nobody_sees_in_a_copied_number_makes_no_other(text):
    assert number_named(text) == "17"


@pytest.mark.parametrize(
    "text",
    ["17 and", "and 23", "and", "17 or 23", "=1+1", "../17", "..", "<b>17", "/17", "17\\23", "{17}", "-1", "1" * 41],
)
def test_a_box_takes_no_half_of_a_group_no_formula_and_no_path(text):
    with pytest.raises(StudentError, match="may be one number or several|as a class number"):
        whose.checked(text)


@pytest.mark.parametrize(
    "text",
    [
        "Ana Orr",
        "Nora 17",
        "b-12",
        "2026 123 456",
        "17/2",
        "ana@a.b",
        "O'Neil, J.",
        "Ana and Bo",
        "17 and 23",
        "Орлова",
    ],
)
def test_a_box_takes_names_and_numbers_of_any_school(text):
    assert whose.checked(text) == text.casefold()


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("17a", "17a"),
        ("1.7", "1.7"),
        ("-17", "-17"),
        ("Nora 17", "nora 17"),
        ("s017", "s017"),
        ("0", "0"),
        ("000", "0"),
        ("", ""),
        ("170", "170"),
    ],
)
def test_what_is_another_number_or_none(text, named):
    assert number_named(text) == named


SAME = [
    "number,name,section\n017,Ana Doe,A\n18,Bo Roe,B\n",
    "Number;Name;Section\n17;Ana Doe;A\n18;Bo Roe;B\n",
    "\ufeffStudent ID\tLast Name\tFirst Name\tSection\tFinal Score\n017\tDoe\tAna\tA\t9\n18\tRoe\tBo\tB\t\n",
    "Student,ID,Section,Assignment 1 (33)\r\nAna Doe,17,A,5\r\nBo Roe,18.0,B,\r\n",
    "sep=;\nclass number;full name;group\n17;Ana Doe;A\n18;Bo Roe;B\n",
    "Pastry, first year\n\n20 October 2026;;\nStudent_ID;Name;Section\n17;Ana Doe;A\n18;Bo Roe;B\n",
]


@pytest.mark.parametrize("text", SAME)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_lists_of_many_gradebooks_are_one_class(text, encoding):
    found = class_list(text.lstrip("\ufeff").encode(encoding)).students
    assert [(one.number, one.name, one.section) for one in found] == [("17", "Ana Doe", "A"), ("18", "Bo Roe", "B")]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"),
        ("name,section\nAna,A\n", "no column with the numbers"),
        ("number,name\n", "without a student"),
        ("number,name\n17,Ana\n017,Bo\n", "row 3: the number 17 stands in row 2"),
        ("number,extra days\n17,many\n", "extra days"),
        ("number,extra days\n17,-3\n", "whole number of days"),
        ("number,extra days\n17,1.5\n", "whole number of days"),
        ('number,name\n17,"Ana\n', "cannot be split"),
        (" ;;\n", "list, which is empty"),
        ("number,name\n2.0261E+10,Ana\n", "row 2: 2.0261E.10, a long number that the spreadsheet has shortened"),
        ("number;name\n2,0261e+10;Ana\n", "shortened"),
        ("Pastry,2026\n\nnumber,name\n17,Ana\n17,Bo\n", "row 5: the number 17 stands in row 4"),
    ],
)
def test_lists_that_are_none_are_refused_in_words(text, says):
    with pytest.raises(StudentError, match=says):
        class_list(text)


def test_sections_that_count_from_one_each_put_the_section_before_the_number():
    found = class_list("number,section\nA-17,A\nb-17,B\n")
    assert found.of(" a-17 ").section == "A" and found.whose("B-17") == ("b-17",)
    assert found.whose("a-17 and B-17") == ("a-17", "b-17")


def test_one_of_several_who_is_unknown_is_still_one_of_them():
    found = class_list("number,name\n17,Ana Doe\n18,Bo Li and Roe\n")
    assert found.whose("Ana Doe and 99") == ("17", "99") and found.whose("98, 99") == ("98", "99")
    assert found.whose("Bo Li and Roe") == ("18",) and found.whose("salt and pepper") == ("salt and pepper",)


def test_a_section_has_one_spelling_in_a_list_the_first():
    rows = "number,section\n1,A\n2, a\n3,Section  A\n4,b\n5, Section B \n6,\n7,Ｂ\n"
    assert [one.section for one in class_list(rows).students] == ["A", "A", "A", "b", "b", "", "b"]


def test_a_row_without_a_number_is_said_and_nobody():
    found = class_list("number,name\n,Points possible\n17,Ana\n")
    assert [one.number for one in found.students] == ["17"] and "row 2" in found.left_out[0]


def test_a_name_leads_to_its_number_where_it_stands_once():
    found = class_list("number,name\n17,Ana Doe\n18,Bo\n19,Bo\n")
    assert found.number_of("  ANA doe") == "17" and found.number_of("Bo") == "" and found.of("017.").name == "Ana Doe"
