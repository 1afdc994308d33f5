"""Lesson 01's benches where they differ from every other: controls that come and go, cups typed by a student."""

import pytest

from pastrylab.benches import scaling


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path))


def standing(bench):
    return {name for name, row in bench._rows.items() if row.layout.display != "none"}


def test_only_the_controls_of_the_way_chosen_stand_on_the_page():
    bench, other = scaling.scale_bench(), scaling.slip_bench()
    assert standing(bench) == {"couverture", "cream", "butter"}
    bench.choices["way"].value = "pieces"
    assert standing(bench) == {"pieces", "piece", "loss"}
    bench.choices["way"].value = "total"
    assert standing(bench) == {"total"}
    assert bench.choices["way"].layout.display != "none"
    assert all(box.layout.display != "none" for box in other.boxes.values())


def test_the_sentence_names_what_runs_out_first_and_what_a_scale_cannot_weigh():
    bench = scaling.scale_bench()
    assert "The cream runs out first" in bench.sentence.value
    bench.boxes["couverture"].value = 500
    assert "The couverture runs out first: the shelf makes 1.00 times the formula, 893 g" in bench.sentence.value
    bench.choices["way"].value, bench.choices["step"].value = "total", 5.0
    bench.boxes["total"].value = 300
    assert "of salt on a scale of 5 g" in bench.sentence.value


def test_cups_are_compared_with_the_table_and_nonsense_is_answered():
    bench = scaling.cups_bench()
    bench.paste.value = "82 g\n90 g\n86 g"
    bench.read.click()
    assert "3 cups of cocoa powder: 82 g" in bench.said.value
    bench.paste.value = "<b>lots</b>\n86 g"
    bench.read.click()
    assert "Needed" in bench.said.value and "<b>" not in bench.said.value
