"""A press waits for the text of its boxes, by asking the page: here the page is played by hand."""

import pytest

from pastrylab.benches import boxes


@pytest.fixture
def on_a_page(monkeypatch):
    monkeypatch.setattr(boxes, "_pressed_on_a_page", lambda: True)


def enter(box):
    box._handle_custom_msg({"event": "submit"}, [])


def test_a_press_that_overtakes_the_text_waits_for_it(on_a_page):
    box, press, seen = boxes.answer_box("Answer", "1 g"), boxes.button("Check", ""), []
    boxes.on_press(press, box, lambda: seen.append(box.value))
    box.set_state({"value": "8"})
    press.click()
    assert seen == [] and box.asked == 1
    box.set_state({"value": "800 g"})
    assert seen == []
    box.set_state({"heard": 1})
    assert seen == ["800 g"]


def test_text_and_echo_may_come_in_one_message(on_a_page):
    box, seen = boxes.answer_box("Answer", "1 g"), []
    boxes.on_enter(box, lambda: seen.append(box.value))
    enter(box)
    box.set_state({"heard": 1, "value": "2 kg"})
    assert seen == ["2 kg"]


def test_each_press_is_answered_once_and_not_by_the_echo_of_an_earlier_one(on_a_page):
    box, seen = boxes.answer_box("Answer", "1 g"), []
    boxes.on_enter(box, lambda: seen.append(box.value))
    enter(box)
    box.set_state({"value": "1 g", "heard": 1})
    enter(box)
    box.set_state({"value": "2 g"})
    assert seen == ["1 g"]
    box.set_state({"heard": 2})
    box.set_state({"heard": 2})
    assert seen == ["1 g", "2 g"]


def test_two_presses_on_one_text_are_one_answer(on_a_page):
    box, seen = boxes.answer_box("Answer", "1 g"), []
    boxes.on_enter(box, lambda: seen.append(box.value))
    enter(box)
    enter(box)
    box.set_state({"value": "3 g", "heard": 2})
    assert seen == ["3 g"] and box._waiting == []


def test_a_press_waits_for_all_its_boxes(on_a_page):
    first, second, area = boxes.answer_box("A", "1"), boxes.answer_box("B", "2"), boxes.TypedArea()
    press, seen = boxes.button("Compare", ""), []
    boxes.on_press(press, (first, second, area), lambda: seen.append((first.value, second.value, area.value)))
    press.click()
    for box, text in ((area, "x\ny"), (second, "2 g"), (first, "1 g")):
        assert seen == []
        box.set_state({"value": text, "heard": box.asked})
    assert seen == [("1 g", "2 g", "x\ny")]


def test_without_a_page_nothing_is_waited_for():
    box, press, seen = boxes.answer_box("Answer", "1 g"), boxes.button("Check", ""), []
    boxes.on_press(press, box, lambda: seen.append(box.value))
    boxes.on_enter(box, lambda: seen.append(box.value))
    box.value = "5 g"
    press.click()
    enter(box)
    assert seen == ["5 g", "5 g"] and box.asked == 0


def test_a_box_says_its_text_when_it_is_left_not_at_each_key():
    assert boxes.answer_box("Answer", "1 g").continuous_update is False
