"""What stands for a bench or a card where nothing can be pressed: in an export, on paper."""

import re

import ipywidgets as widgets
import nbformat
import pytest
from nbconvert import HTMLExporter

from pastrylab import benches
from pastrylab.desk import commands, printed
from pastrylab.page.on_paper import html_of, text_of
from pastrylab.school import engine


def test_a_card_is_its_question_and_a_line_to_write_on(own_workbook):
    card = benches.exercise("02.seed-for-a-bowl")
    said = text_of(card)
    assert engine.case(card.exercise).prompt.split(".")[0] in said and said.endswith(
        "Your answer, with its unit: ____________"
    )
    assert "Check" not in said and "ExerciseCard" not in said
    card.box.value = "<b>1</b> kg"
    card.grade()
    assert "Your answer, with its unit: <b>1</b> kg" in text_of(card) and "<b>1</b>" not in html_of(card)


def test_a_bench_is_its_numbers_its_sentence_and_its_picture(own_workbook):
    bench = benches.tempering.crystal_bench()
    page = html_of(bench)
    assert bench.figure.alt in text_of(bench) and 'src="data:image/png;base64,' in page
    assert "onload" not in page and "<script" not in page
    assert "Melted out to (°C): 45" in text_of(bench)
    next(iter(bench.numbers.values())).put(40)
    assert "(°C): 40" in text_of(bench)


def test_each_kind_of_box_and_what_is_hidden():
    hidden = widgets.Text(description="never", layout={"display": "none"})
    tabs = widgets.Tab([widgets.HTML("in it")], titles=("First",))
    chosen = widgets.Dropdown(description="Use", options=[("to <fill>", "fill"), ("pipe", "pipe")])
    whole = widgets.VBox(
        [
            *(hidden, tabs, chosen, widgets.Checkbox(description="Dry", value=True), widgets.IntSlider()),
            *(widgets.Button(description="Press"), widgets.Textarea(description="List", value="a\nb")),
        ]
    )
    assert text_of(whole) == "First\nin it\nUse: to <fill>\nDry: yes\nList: a\nb"


def _notebook(*data):
    outputs = [nbformat.v4.new_output("display_data", data=one) for one in data]
    cell = nbformat.v4.new_code_cell("x", outputs=outputs, metadata={"jupyter": {"source_hidden": True}})
    return nbformat.v4.new_notebook(cells=[cell], metadata={"widgets": {"state": {}}})


def test_a_view_that_died_is_printed_as_its_text_or_not_at_all():
    exporter = HTMLExporter()
    exporter.register_preprocessor(printed.Printed, enabled=True)
    view = {printed.VIEW: {"model_id": "1"}, "text/plain": "ExerciseCard(children=(HTML"}
    page = exporter.from_notebook_node(_notebook(view, {**view, "text/html": "<p>How much seed?</p>"}))[0]
    assert "How much seed?" in page and "ExerciseCard(" not in page and 'model_id"' not in page


@pytest.fixture(scope="module")
def lesson(tmp_path_factory):
    folder = tmp_path_factory.mktemp("printed")
    assert commands.main(["print", "--lesson", "5", "--out", str(folder)]) == 0
    return (folder / "05-lesson.html").read_text(encoding="utf-8")


def test_a_lesson_printed_has_every_question_every_picture_and_no_program(lesson):
    words = re.sub(r"<[^>]+>", "", lesson)
    for exercise in benches.catalogue.of_lesson("05"):
        assert exercise.title in words, exercise.id
    assert not re.search(r"\w+(Card|Bench|Box|Reader)\(", words)
    assert lesson.count("data:image/png;base64,") >= 3 and 'src="pictures/' not in lesson
    assert not re.search(r"Out\[\d", words) and "@page { size: auto" in lesson
    assert 'src="http' not in lesson and "widget-view" not in lesson


def test_a_lesson_that_is_not_there_is_said(tmp_path, capsys):
    assert commands.main(["print", "--lesson", "77", "--out", str(tmp_path)]) == 2
    assert "'77' as a lesson" in capsys.readouterr().err
