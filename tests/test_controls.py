"""A bench's numbers: read as the kitchen writes them, at home in one unit, moved by nobody but the student."""

import html
import importlib.util
import inspect
import json
import pkgutil
import random

import pytest
from depth import depth
from hypothesis import given, settings
from hypothesis import strategies as st

from pastrylab import course
from pastrylab.course.costing import benches as costing
from pastrylab.course.keeping import benches as keeping
from pastrylab.course.scaling import benches as scaling
from pastrylab.course.tempering import benches as tempering
from pastrylab.ground.units import StudentError
from pastrylab.page.bench import Bench, Control, NumberBox, Plain
from pastrylab.page.picture import Picture


def bench_makers():
    """Every function of the bench modules that makes a bench, by its name."""
    for info in pkgutil.iter_modules(course.__path__):
        name = f"pastrylab.course.{info.name}.benches"
        if not info.ispkg or not importlib.util.find_spec(name):
            continue
        module = importlib.import_module(name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and name.endswith("_bench") and not name.startswith("_"):
                yield f"{info.name}.{name}", function


MAKERS = dict(bench_makers())


def undrawn(make, folder):
    """A page that shows for each picture what it would be drawn from."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("PASTRYLAB_WORKBOOK", str(folder))
        patch.setattr(Picture, "png", lambda figure: b"not drawn yet")
        page = make()
    if isinstance(page, Bench):
        page.figure.png = lambda: repr(page.values).encode()
    return page


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """pages(make): the page a maker makes, made once, as it opens; what a reader did to it is undone."""
    folder = tmp_path_factory.mktemp("workbook")
    made = {make: undrawn(make, folder) for make in MAKERS.values()}

    def opened(make):
        page = made[make]
        if isinstance(page, Bench):
            page.system.value = "metric"
            for number in page.numbers.values():
                number.put(number.control.value)
        return page

    yield opened
    for page in made.values():
        page.close()


@pytest.fixture
def bench(request, pages):
    page = pages(MAKERS[request.param])
    if not isinstance(page, Bench):
        pytest.skip("no controls of its own")
    return page


def said(number):
    return html.unescape(number.said.value)


class Browser:
    """The page's side of a bench's widgets: what the kernel sends arrives late, and every widget reports back what it
    holds, its own way: a slider cut to its range and rounded to its step, a box as the text it shows."""

    def __init__(self, page, seed):
        self.dice, self.late = random.Random(seed), []
        self.widgets = [w for n in page.numbers.values() for w in (n.box, page.sliders[n.control.name])]
        self.seen = {w: w.value for w in self.widgets}
        for widget in self.widgets:
            widget.observe(self.sent, "value")

    def sent(self, change):
        self.late.append((change["owner"], change["new"]))

    def leave(self):
        for widget in self.widgets:
            widget.unobserve(self.sent, "value")

    def answer(self):
        """Let some of what is under way arrive, in any order, and let some of the widgets report back."""
        self.dice.shuffle(self.late)
        for _ in range(self.dice.randint(0, len(self.late))):
            widget, value = self.late.pop()
            self.seen[widget] = value
        for widget in self.dice.sample(self.widgets, 2):
            if hasattr(widget, "min"):
                step = widget.step
                value = min(max(round(self.seen[widget] / step) * step, widget.min), widget.max)
                widget.set_state({"value": value})


@pytest.mark.parametrize("bench", MAKERS, indirect=True)
def test_switch_upon_switch_leaves_every_value_bit_for_bit(bench, monkeypatch):
    monkeypatch.setattr(bench, "refresh", lambda: None)
    for seed, typed in enumerate((False, True)):
        if typed:  # off the grid of the slider, and the last one in the other system
            for number in bench.numbers.values():
                low, high = number.control.low, number.control.high
                number.box.value = low + 0.37 * (high - low)
        before = {name: number.value.hex() for name, number in bench.numbers.items()}
        texts = {name: number.box.value for name, number in bench.numbers.items()}
        browser = Browser(bench, seed)
        for turn in range(depth(12, 100)):
            bench.system.value = ("US", "metric")[turn % 2]
            browser.answer()
            assert {name: number.value.hex() for name, number in bench.numbers.items()} == before, turn
        browser.leave()
        assert {name: number.box.value for name, number in bench.numbers.items()} == texts
        assert bench.values["system"] == "metric"


@pytest.mark.parametrize("bench", MAKERS, indirect=True)
def test_switching_units_says_nothing_to_a_slider_and_only_writes_a_box(bench):
    sent = []
    for slider in bench.sliders.values():
        slider.observe(lambda change: sent.append(change), names=["value", "min", "max", "step"])
    bench.system.value = "US"
    for number in bench.numbers.values():
        assert number.control.title("US") == number.box.description
    bench.system.value = "metric"
    assert sent == []


@pytest.mark.parametrize("bench", MAKERS, indirect=True)
def test_every_place_of_every_slider_stands_for_a_number_in_range_and_shows_it(bench, monkeypatch):
    monkeypatch.setattr(bench, "refresh", lambda: None)
    for system in ("metric", "US"):
        bench.system.value = system
        for name, slider in bench.sliders.items():
            number, control = bench.numbers[name], bench.controls[name]
            shown = []
            for place in {0, 1, slider.max // 2, slider.max - 1, slider.max} | {slider.max // 3}:
                slider.value = place
                assert slider.value == place, "a slider stays where the student has put it"
                assert control.low <= number.value <= control.high
                assert number.box.value == control.text(number.value, system)
                shown.append((place, number.value))
            values = [value for _, value in sorted(shown)]
            assert values == sorted(values)


@pytest.mark.parametrize("bench", MAKERS, indirect=True)
def test_what_a_box_shows_may_be_typed_again_in_either_system(bench, monkeypatch):
    monkeypatch.setattr(bench, "refresh", lambda: None)
    for system in ("metric", "US"):
        bench.system.value = system
        for number in bench.numbers.values():
            control = number.control
            for end in (control.low, control.high, control.value):
                text = control.text(end, system)
                assert control.read(text, system) == pytest.approx(end, rel=6e-4, abs=1e-9), (control.label, text)
                assert control.low <= control.read(f" {text} {control.mark(system)}", system) <= control.high


SEED = [
    ("batch", "2,37", 2.37),
    ("batch", "0,5 kg", 0.5),
    ("batch", "1/2", 0.5),
    ("batch", "1 ½", 1.5),
    ("batch", "750 g", 0.75),
    ("batch", "5 lb", 5 * 0.45359237),
    ("batch", "1 lb 4 oz", 1.25 * 0.45359237),
    ("batch", "2 kg (4.41 lb)", 2),
    ("batch", "about 3 kg", 3),
    ("batch", "3 kg of dark couverture", 3),
    ("batch", "1.250", 1.25),
    ("melted_at", "113 F", 45),
    ("melted_at", "113 °F", 45),
    ("melted_at", "45 C°", 45),
    ("target", "31,5", 31.5),
    ("target", "88 F", (88 - 32) / 1.8),
    ("melted_share", "75 %", 75),
    ("melted_share", "75", 75),
    ("melted_share", "62,5 per cent", 62.5),
]


@pytest.mark.parametrize(("name", "text", "metric"), SEED)
def test_a_box_reads_the_kitchens_way_of_writing(name, text, metric, pages):
    page = pages(tempering.seed_bench)
    page.boxes[name].value = text
    assert page.numbers[name].value == pytest.approx(metric, abs=1e-8) and not said(page.numbers[name])
    given = page.values[name]
    assert given == pytest.approx(metric / 100 if name == "melted_share" else metric, abs=1e-8)


REFUSED = [
    ("batch", "180,5", "from 0.5 to 10 kg"),
    ("batch", "-20", "from 0.5 to 10 kg"),
    ("batch", "0.49", "from 0.5 to 10 kg"),
    ("batch", "10.01", "from 0.5 to 10 kg"),
    ("batch", "1,250", "1250 kg or 1.25 kg"),
    ("batch", "2 L", "L measures a volume"),
    ("batch", "2 °C", "measures a temperature"),
    ("batch", "x", "a number first"),
    ("batch", "", "nothing yet"),
    ("batch", "nan", "a number you can weigh or read"),
    ("batch", "2 - 3", "not a range"),
    ("melted_at", "9000", "from 40 to 55 °C"),
    ("melted_at", "45 kg", "measures a mass"),
    ("melted_at", "5 delta degC", "a difference between two temperatures"),
    ("melted_share", "0.9 kg", "measures a mass"),
    ("melted_share", "31,5", "from 50 to 100 %"),
    ("melted_share", "12 pieces", "measures a plain number"),
]


@pytest.mark.parametrize(("name", "text", "says"), REFUSED)
def test_what_is_refused_is_said_beside_its_box_and_changes_nothing(name, text, says, pages):
    page = pages(tempering.seed_bench)
    page.boxes[name].value = "2.4" if name == "batch" else "50"
    before, picture, place = page.values, page.picture.value, page.sliders[name].value
    page.boxes[name].value = text
    assert says in said(page.numbers[name]) and "The page keeps" in said(page.numbers[name])
    assert (page.values, page.picture.value, page.sliders[name].value) == (before, picture, place)
    assert page.boxes[name].value == text, "what was typed stays there to be mended"
    page.system.value = "US"
    assert not said(page.numbers[name]) and page.boxes[name].value != text
    page.boxes[name].value = page.controls[name].text(page.controls[name].high, "US")
    assert page.numbers[name].value == pytest.approx(page.controls[name].high, rel=6e-4)


def test_three_decimals_of_grams_are_asked_about_in_a_box_of_grams(own_workbook):
    page = scaling.shelf_bench()
    page.boxes["couverture"].value = "1.250"
    assert "1250 g or 1.25 g" in said(page.numbers["couverture"])
    page.boxes["couverture"].value = "1.250 kg"
    assert page.numbers["couverture"].value == 1250
    page.boxes["couverture"].value = "2125 g (75 oz)"
    assert page.numbers["couverture"].value == 2125


def test_a_bare_number_is_in_the_unit_its_label_names(own_workbook):
    page = tempering.seed_bench()
    page.system.value = "US"
    page.boxes["melted_at"].value = "122"
    page.boxes["batch"].value = "4,5"
    assert page.numbers["melted_at"].value == pytest.approx(50)
    assert page.numbers["batch"].value == pytest.approx(4.5 * 0.45359237)
    page.boxes["melted_at"].value = "45 C"
    assert page.numbers["melted_at"].value == 45 and page.boxes["melted_at"].value == "113"
    page.boxes["melted_at"].value = "45"
    assert "from 104 to 131 °F" in said(page.numbers["melted_at"])


PLAIN = [
    (keeping.meter_bench, "ph", "3,8", 3.8),
    (keeping.meter_bench, "ph", "pH 5,1", 5.1),
    (keeping.meter_bench, "ph", "5.1 pH", 5.1),
    (keeping.meter_bench, "reading", "0,861", 0.861),
    (keeping.meter_bench, "reading", "86 %", 0.86),
    (costing.price_bench, "food", "$4.35", 4.35),
    (costing.price_bench, "food", "4,35", 4.35),
    (costing.price_bench, "food", "4.35 USD", 4.35),
    (costing.price_bench, "sold", "80 boxes", 80),
    (costing.price_bench, "sold", "6 dozen", 72),
    (costing.cost_bench, "wage", "22,50", 22.5),
    (costing.cost_bench, "minutes", "1.5 h", 90),
    (costing.cost_bench, "minutes", "1h30", 90),
    (costing.cost_bench, "minutes", "45 min", 45),
    (scaling.pieces_bench, "pieces", "5 dozen", 60),
    (scaling.pieces_bench, "pieces", "48 pieces", 48),
]
PLAIN_REFUSED = [
    (keeping.meter_bench, "ph", "12", "from 3.5 to 7.5"),
    (keeping.meter_bench, "ph", "5 g", "measures a mass"),
    (keeping.meter_bench, "reading", "86", "from 0.75 to 0.99"),
    (costing.price_bench, "food", "4,40 EUR", "in EUR; the page counts in USD"),
    (costing.price_bench, "food", "22,50", "from 1 to 12 USD"),
    (costing.price_bench, "food", "4 kg", "currency sign"),
    (costing.price_bench, "sold", "80 g", "measures a mass"),
    (costing.price_bench, "sold", "50 %", "a percentage"),
    (scaling.pieces_bench, "pieces", "48 g", "measures a mass"),
    (scaling.pieces_bench, "pieces", "50 %", "a percentage"),
]


@pytest.mark.parametrize(("make", "name", "text", "number"), PLAIN)
def test_numbers_without_a_kitchen_unit_are_read_too(make, name, text, number, pages):
    page = pages(make)
    page.boxes[name].value = text
    assert page.numbers[name].value == pytest.approx(number) and not said(page.numbers[name])


@pytest.mark.parametrize(("make", "name", "text", "says"), PLAIN_REFUSED)
def test_and_refused_where_they_are_something_else(make, name, text, says, pages):
    page = pages(make)
    before = page.values
    page.boxes[name].value = text
    assert says in said(page.numbers[name]) and page.values == before


def test_the_slider_of_a_us_page_moves_in_steps_a_us_scale_shows():
    control = Control("t", "Bowl", "degC", 40, 55, 0.5, 45, us=(104, 131, 1))
    assert (
        control.text(45, "US") == "113"
        and control.title("US") == "Bowl (°F)"
        and control.title("metric") == "Bowl (°C)"
    )
    assert [control.text(control.at(place, "US"), "US") for place in (0, 1, 10, 29, 30)] == [
        "104",
        "105",
        "113",
        "130",
        "131",
    ]
    assert control.at(10, "metric") == 45 and control.places == 30 and control.place_of(45.2) == 10
    share = Control("s", "Share", "", 0, 100, 1, 50)
    assert share.title("US") == "Share (%)" and share.title("metric") == "Share (%)"


def test_the_last_place_of_a_slider_is_the_end_of_the_range():
    control = Plain("x", "x", "", 1, 2, 0.3, 1)
    assert [control.at(place, "metric") for place in range(control.places + 1)] == [1, 1.3, 1.6, 1.9, 2]


def test_a_box_of_its_own_keeps_the_last_number_that_was_clear():
    box = NumberBox(Plain("wage", "Wage", "USD an hour", 0, 200, 0.5, 18))
    heard = []
    box.observe(lambda change: heard.append(change["new"]), "value")
    for text in ("22,50", "2250", "", "abc", "$19"):
        box.box.value = text
    assert heard == [22.5, 19] and box.value == 19 and box.box.value == "19"
    with pytest.raises(StudentError, match="from 0 to 200 USD an hour"):
        box.control.read("2250", "metric")


def test_what_goes_over_the_wire_are_texts_and_places_alone(own_workbook):
    page = tempering.seed_bench()
    state = {
        name: (number.box.get_state("value"), page.sliders[name].get_state("value"))
        for name, number in page.numbers.items()
    }
    assert json.loads(json.dumps(state))["batch"] == [{"value": "2"}, {"value": 15}]


def test_a_box_of_grams_never_shows_three_decimals():
    """331.375 could be read as thousands: the box would refuse what it shows itself."""
    control = Control("c", "Cream", "g", 0, 500, 5, 100)
    for number in (331.375, 1.125, 12.3456):
        assert control.read(control.text(number, "metric"), "metric") == pytest.approx(number, abs=0.006)


ANY_TEXT = st.one_of(
    st.text(max_size=80),
    st.from_regex(
        r"[-+~]?[0-9½., /']{0,9} ?[a-zA-Z°%$€/']{0,8}( ?[(=+/-] ?[0-9.,]{0,6} ?[a-zA-Z°%]{0,4}\)?)?", fullmatch=True
    ),
)
CONTROLS = [
    Control("g", "Cream", "g", 80, 400, 5, 200, us=(3, 14, 0.25)),
    Control("t", "It stands at", "degC", 28, 34, 0.1, 31.5, us=(82, 93, 0.2)),
    Control("s", "Share", "", 0, 100, 1, 50),
    Control("n", "Time", "min", 1, 180, 1, 40),
    Plain("p", "pH, by strip", "", 2, 7, 0.1, 3),
    Plain("m", "Wage", "USD an hour", 0, 60, 0.5, 18),
    Plain("b", "You sell, a week", "boxes", 0, 400, 1, 70),
]


@pytest.mark.parametrize("control", CONTROLS, ids=lambda control: control.label)
@pytest.mark.parametrize("system", ["metric", "US"])
@settings(max_examples=depth(25, 120))
@given(text=ANY_TEXT)
def test_any_text_is_a_number_in_range_or_refused_in_words(control, system, text):
    try:
        number = control.read(text, system)
    except StudentError as error:
        assert error.given and error.needed
        return
    assert control.low <= number <= control.high
    again = control.read(control.text(number, system), system)
    assert again == pytest.approx(number, rel=2e-3, abs=0.011), "what the box shows for it is read as the same"


@pytest.mark.parametrize("control", CONTROLS, ids=lambda control: control.label)
@settings(max_examples=depth(40, 200))
@given(share=st.floats(0, 1))
def test_every_number_in_range_may_be_typed_with_point_or_comma(control, share):
    number = round(control.low + share * (control.high - control.low), 2)
    text = f"{number:.2f}"
    if control.is_share and 0 < number < 1 <= control.step and 100 * number <= control.high:
        with pytest.raises(StudentError, match="two ways"):  # 0.08: 8 % or 0.08 %
            control.read(text, "metric")
        text = f"{text} %"
    assert control.read(text, "metric") == pytest.approx(number, abs=1e-9)
    assert control.read(text.replace(".", ","), "metric") == pytest.approx(number, abs=1e-9)
