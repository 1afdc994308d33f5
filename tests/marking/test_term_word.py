"""A word of the term in the draw: published as SHA-256 of "exercise|given|student|word", worked out apart here."""

import hashlib

import pytest
from lines_handed_in import GRAMS_A_CUP, HONEY, cups, line

from pastrylab.course import benches
from pastrylab.course.catalogue import grade
from pastrylab.desk.marked import mark_folder
from pastrylab.ground.units import StudentError
from pastrylab.page.cards import NameCard
from pastrylab.school import answers, exercise_values, handing_in, term, whose


def right(student, word=""):
    drawn_by = f"{HONEY}|cups|{student}" + (f"|{word}" if word else "")
    # datasets/exercise_values.csv: from half a cup to two, by quarters
    number = 0.5 + int(hashlib.sha256(drawn_by.encode()).hexdigest()[:16], 16) % 7 * 0.25
    return f"{number * GRAMS_A_CUP:.1f} g"


@pytest.fixture
def words(own_workbook):
    """words(*rows): the sheet of a term."""

    def put(*rows):
        (own_workbook / "datasets").mkdir(exist_ok=True)
        (own_workbook / "datasets" / "term.csv").write_text("\n".join(["section,word", *rows]) + "\n", encoding="utf-8")

    return put


def test_no_word_draws_as_it_always_did(words):
    before = exercise_values.values()
    words("everybody,")
    assert exercise_values.values() == before and before.word == "" and "word" not in before.to_csv()
    assert before.to_csv() == exercise_values.values(before.to_csv()).to_csv()
    assert grade(HONEY, f"{cups('17') * GRAMS_A_CUP:.1f} g", "17").right and right("17") != right("17", "spring-27")


@pytest.mark.parametrize("word", ["spring-27", "2026", "Frühjahr 27"])
def test_another_word_draws_other_numbers_for_the_same_student_and_leaves_the_class_alone(words, word):
    words(f",{word}")
    plain = [right(str(n)) for n in range(60)]
    drawn = [right(str(n), word.lower()) for n in range(60)]
    assert sum(a != b for a, b in zip(plain, drawn, strict=True)) > 30
    assert all(grade(HONEY, drawn[n], str(n)).right for n in range(60))
    assert grade(HONEY, f"{cups('') * GRAMS_A_CUP:.1f} g").right


def test_a_kept_file_carries_its_word_into_another_term(words):
    words("everybody,autumn-26")
    kept = exercise_values.values()
    words("everybody,spring-27")
    assert kept.id != exercise_values.values().id
    again = exercise_values.values(kept.to_csv())
    assert (again.id, again.word) == (kept.id, "autumn-26") and exercise_values.of_each_section(again) == [again]
    assert grade(HONEY, right("17", "autumn-26"), "17", again).right


@pytest.mark.parametrize("typed", ["B", " b ", "Section B", "section  b", "Ｂ", "section section b"])
def test_a_section_is_the_same_in_every_hand(words, typed):
    words("Section A,morning", "B,evening")
    whose.set_student("17", term.words().checked(typed))
    assert exercise_values.values().word == "evening" == exercise_values.for_section(typed).word
    assert grade(HONEY, right("17", "evening"), "17").right
    plain = exercise_values.values().worded("")
    assert exercise_values.for_section(typed, plain.to_csv()).word == "evening"
    assert exercise_values.for_section(typed, plain.worded("last term").to_csv()).word == "last term", "as it was kept"


def test_the_first_page_asks_for_the_section_where_it_matters_and_says_the_term(words, undrawn):
    words("A,morning", "B,evening")
    card = NameCard()
    card.box.value = "No. 017"
    for section, says in (("", "one of a, b"), ("C", "one of a, b"), ("b", "drawn for: 17, term evening")):
        card.section.value = section
        card.act()
        assert says in card.said.value
    asked = benches.exercise(HONEY)
    assert "Values drawn for 17, term evening." in asked.text.value
    asked.box.value = right("17", "evening")
    asked.grade()
    assert "Right" in asked.verdict.value
    (entry,) = answers.read("01")[0]
    assert entry["student"] == "17" and answers.values_of(entry).word == "evening"


def test_the_last_card_takes_no_section_there_is_not_and_says_what_another_one_changes(words, undrawn):
    words("A,morning", "B,evening")
    whose.set_student("17", "a")
    answers.record("01", HONEY, right("17", "morning"), "17")
    card = benches.hand_in("01")
    for section, says, there in (("C", "one of a, b", 0), ("Section A", "1 answer", 1), ("b", "section b now", 2)):
        card.section.value = section
        card.act()
        assert says in card.said.value and ("run the lesson again" in card.said.value) == (section == "b")
        assert len(list(handing_in.folder().glob("*.zip"))) == there


def test_marking_judges_by_the_word_that_was_asked_with_and_by_no_other(words, hand_in, tmp_path):
    words("everybody,autumn-26")
    asked = exercise_values.values().id
    last_year = exercise_values.values().worded("autumn-25").id
    bare = exercise_values.values().worded("").id
    hand_in("1/01.jsonl", line("1", right("1", "autumn-26"), values=asked))
    hand_in("2/01.jsonl", line("2", right("2", "autumn-25"), values=asked))
    hand_in("3/01.jsonl", line("3", right("3", "autumn-25"), values=last_year))
    hand_in("4/01.jsonl", line("4", right("4"), values=bare))
    roll = tmp_path / "list.csv"
    roll.write_text("number\n1\n2\n3\n4\n")
    assert right("2", "autumn-26") != right("2", "autumn-25")

    def got(*values):
        mark_folder(hand_in.folder, roll, tmp_path / "marks", values)
        rows = (tmp_path / "marks" / "gradebook.csv").read_text(encoding="utf-8-sig").splitlines()[1:]
        return [row.split(",")[3] for row in rows]

    assert got() == ["1", "0", "0", "0"]
    kept = tmp_path / "kept.csv"
    kept.write_text(exercise_values.values().worded("autumn-25").to_csv())
    assert got(kept) == ["1", "0", "1", "0"], "values kept with their word count for what they were"


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (",a|b", "letters and digits"),
        (',"autumn-26 <b>"', "letters and digits"),
        (",=1+1", "what the formula comes to"),
        (",../up", "letters and digits"),
        (",-26", "letters and digits"),
        (f",{'a' * 41}", "letters and digits"),
        ("A,one\nsection a ,two", "a has a word already"),
        (",one\nall,two", "everybody has a word already"),
    ],
)
def test_words_that_are_none_are_refused_with_their_row(words, row, says):
    words(row)
    with pytest.raises(StudentError, match=rf"term.csv, row \d.*{says}"):
        term.words()


def test_a_section_without_a_word_of_its_own_is_one_and_the_word_of_all_is_nobodys_other(words):
    words("A,morning", "B,")
    assert term.words().checked("b") == "b" and term.words().of("b") == "" and term.words().sections == ("a", "b")
    late = term.Words({"": "autumn", "c": "evening"})
    assert late.others("c") == set() and late.others("a") == {"evening"}, (
        "who had typed no section yet drew with autumn"
    )
    assert late.checked("no such") == "no such", "there is a word for everybody"


def test_a_sheet_as_spreadsheets_save_it_is_read(words, own_workbook):
    words()
    path = own_workbook / "datasets" / "term.csv"
    for text in ("section;word;note\nA;autumn-26;mine\n", "\ufeffword\tsection\nautumn 26\tA\n"):
        for encoding in ("utf-8", "utf-16"):
            path.write_bytes(text.encode(encoding))
            assert term.words().of("a").replace(" ", "-") == "autumn-26"
    path.write_bytes(b'section,word\nA,"autumn\n26"\n')
    assert term.words().of("A") == "autumn 26"
