"""Orders as people write them, whole sheets: each goes through, or is asked about in a sentence that can be answered.

What each should be read as is written down by hand.
"""

import pytest

from pastrylab.ground.errors import StudentError
from pastrylab.trade.orders import larkmoor, read_order, read_rejects, read_sheet

pytestmark = pytest.mark.usefixtures("undrawn")

D, R, H = "dark ganache", "raspberry ganache", "hazelnut praline"
DARK, MILK = "dark couverture 64 %", "milk couverture 38 %"
WRITTEN = {
    "5 doz dark ganache": {D: 60},
    "5 doz. dark": {D: 60},
    "2 boxes à 12 raspberry": {R: 24},
    "Raspberry, 2 boxes of 12": {R: 24},
    "2 x 12 hazelnut": {H: 24},
    "60x dark\n48x hazel": {D: 60, H: 48},
    "24 haz": {H: 24},
    "rasp. 48 pcs": {R: 48},
    "Dark ganaches - 60": {D: 60},
    "hazelnut pralines 4 dz": {H: 48},
    "a dozen dark": {D: 12},
    "half a dozen hazelnut": {H: 6},
    "one box of 24 raspberry ganache": {R: 24},
    "3 boxes of 12 pieces dark ganache": {D: 36},
    "60 ea. DARK GANACHE": {D: 60},
    "• 24 dark;\n• 36 raspberry;\n• 48 hazelnut.": {D: 24, R: 36, H: 48},
    "Order for Friday, 27 Nov\n\n60 dark": {D: 60},
    "27.11.2026\n60 dark": {D: 60},
    "Fri 27 Nov:\n60 dark\nNote: Ms A. is allergic to sesame": {D: 60},
    "2 dozen dark, 1 dozen hazelnut": {D: 24, H: 12},
    "60 dark and 48 hazelnut + 24 rasp": {D: 60, H: 48, R: 24},
    '\ufeff"dark ganache","60"\r\n| 48 | hazelnut praline |': {D: 60, H: 48},
    "Friday: 60 dark\nwithout nuts, please\nleftovers: none": {D: 60},
    "60 dark (no nuts, please)": {D: 60},
    "Customer: tearoom, picks up at half past twelve\n60 dark\nAllergies: one guest, peanuts\nThanks!": {D: 60},
    "quantity;flavour\n60;dark ganache\n48;hazelnut praline": {D: 60, H: 48},
}
ASKED = {
    "48 hazlenut": "60 hazelnut",
    "60 dark allergic to nuts": "a line of its own",
    "24 ha": "for a flavour",
    "some dark ganache": "how many",
    "dark ganache:": "how many",
    "2 boxes of dark ganache": "pieces in a box",
    "60 ganache": "which of them",
    "Morning:\nAfternoon:\n60 dark\nEvening:": "a line a flavour under each heading",
    "A class:\n60 dark\nB class:\nC class:\n24 dark": "under each heading",
    "Section A\n60 dark\nSection A\n24 dark": "a name of its own",
    "60 dark\nleft over: some praline": "so many grams",
    "60 dark\nleft over: 300 g cream": "stock.csv",
    "60 dark\nleft over: -300 g hazelnut praline": "so many grams",
    "Friday\nnote: ring the customer": "a line a flavour",
    "twelve dark": "how many",
    "60 dark 24": "for a flavour",
    "60 dark, 48 pistachio": "for a flavour",
    "1,000 dark": "two ways",
    "60 dark @ 1.20": "for a flavour",
    "=60 dark": "how many",
}


@pytest.mark.parametrize("text, found", WRITTEN.items())
def test_an_order_as_a_person_writes_it_goes_through(text, found):
    assert read_order(text) == found


@pytest.mark.parametrize("text, words", ASKED.items())
def test_what_cannot_be_read_is_asked_about(text, words):
    with pytest.raises(StudentError) as refused:
        read_sheet(text)
    assert words in str(refused.value)
    assert refused.value.example


def test_nothing_that_speaks_of_an_allergy_is_lost():
    sheet = read_sheet("Fri 27 Nov\nallergy: sesame\n60 dark (no nuts!)\nOne guest is coeliac\nN.B. ribbon: blue")
    assert sheet.title == "Fri 27 Nov"
    assert sheet.notes == ("allergy: sesame", "60 dark: no nuts!", "One guest is coeliac", "N.B. ribbon: blue")


def test_sections_keep_their_names_orders_and_what_they_bring():
    sheet = read_sheet(
        "Order 12\nMorning section:\n60 dark\n24 dark\nleft over: 300 g hazelnut praline, 1.2 kg dark couverture\n"
        "[Afternoon]\n48 hazelnut\nleft-overs: milk chocolate 500 g"
    )
    morning, afternoon = sheet.sections
    assert (sheet.title, morning.name, afternoon.name) == ("Order 12", "Morning section", "Afternoon")
    assert (morning.order, afternoon.order) == ({D: 84}, {H: 48})
    assert morning.brought == {H: 300.0, DARK: 1200.0} and afternoon.brought == {MILK: 500.0}
    assert sheet.together() == ({D: 84, H: 48}, {H: 300.0, DARK: 1200.0, MILK: 500.0})
    assert read_order("A class:\n60 dark\nB class:\n60 dark") == {D: 120}


def test_one_heading_is_a_title_and_no_section():
    sheet = read_sheet("Section A\n60 dark")
    assert (sheet.title, [one.name for one in sheet.sections]) == ("Section A", [""])


@pytest.mark.parametrize(
    ("text", "brought"),
    [
        ("left over: 300 g hazelnut praline", {H: 300.0}),
        ("Leftover 300 g of hazelnut praline filling", {H: 300.0}),
        ("brought in: 1.2 kg dark couverture in temper", {DARK: 1200.0}),
        ("from yesterday: raspberry 250 g; 1 lb milk couverture", {R: 250.0, MILK: 453.59237}),
        ("left: 1/2 kg dark couverture 64 % and 100 g dark ganache", {DARK: 500.0, D: 100.0}),
    ],
)
def test_what_is_left_over_is_read(text, brought):
    (section,) = read_sheet(f"60 dark\n48 hazelnut\n{text}", larkmoor().flavours).sections
    assert section.brought == pytest.approx(brought)


@pytest.mark.parametrize(
    ("text", "share"),
    [("2 in 25", 0.08), ("1 out of 12", 1 / 12), ("3 of 60 pieces", 0.05), ("10 %", 0.1), ("0.1", 0.1), ("0 in 5", 0)],
)
def test_rejects_as_people_count_them(text, share):
    assert read_rejects(text) == pytest.approx(share, rel=1e-9)


@pytest.mark.parametrize("text", ["25 in 25", "30 in 25", "2 in 0", "two in 25", "-1 in 5", "", "100 %", "5 g"])
def test_rejects_that_are_no_share_are_a_sentence(text):
    with pytest.raises(StudentError):
        read_rejects(text)


@pytest.mark.parametrize(("text", "names"), [("60 pistachio", (D, R, H)), ("60 ganache", (D, R))])
def test_a_refusal_names_what_could_be_meant(text, names):
    with pytest.raises(StudentError) as refused:
        read_order(text)
    assert f": {', '.join(names)}. Example" in str(refused.value)
