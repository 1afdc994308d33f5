"""A box whose text is all there when a button is pressed, also where the lesson stands open in two windows."""

import pytest

from pastrylab.page import boxes


@pytest.fixture
def window(monkeypatch):
    """Say from which window the message comes that is being handled."""
    now = {"page": None}
    monkeypatch.setattr(boxes, "_page", lambda: now["page"])
    return lambda name: now.update(page=name)


def test_without_a_page_what_is_pressed_is_done_at_once(window):
    box, done = boxes.TypedBox(), []
    box.when_in(lambda: done.append(box.value))
    assert done == [""]


def test_the_text_of_the_window_that_pressed_is_what_counts(window):
    box, done = boxes.TypedBox(), []
    window("mine")
    box.when_in(lambda: done.append(box.value))
    assert done == [] and box.asked == 1
    window("yours")  # asked as well, and quicker
    box.set_state({"heard": 1})
    assert done == []
    window("mine")
    box.set_state({"value": "800 g", "heard": 1})
    assert done == ["800 g"]
    box.set_state({"heard": 1})
    assert done == ["800 g"]


def test_two_presses_on_one_text_are_one_answer(window):
    box, done = boxes.TypedBox(), []
    window("mine")

    def callback():
        done.append(box.value)

    box.when_in(callback)
    box.when_in(callback)
    box.set_state({"value": "1 kg"})
    assert done == []
    box.set_state({"heard": 2})
    assert done == ["1 kg"]
