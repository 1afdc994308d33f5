"""Committed notebooks: what nbval would pass over silently is caught here, and the lesson standard is held."""

import json
import re
from pathlib import Path

import pytest

LESSONS = Path(__file__).resolve().parents[2] / "lessons"
# A sheet of an instructor's own keeps no standard but that of its sheet: it is run, and that is all.
NOTEBOOKS = sorted(path for path in LESSONS.glob("*.ipynb") if not path.name.startswith("lab-"))
TAGS = {"nbval-check-output", "keep_output", "raises-exception", "paper"}
STANDARD = [
    "guess first",
    "at the bench",
    "why",
    "a worked example",
    "something goes wrong",
    "exercises",
    "at the real bench",
    "recap",
    "on paper before the lab",
    "sources",
]


def read(path):
    return json.loads(path.read_text(encoding="utf-8"))


def source(cell):
    return "".join(cell["source"])


def tags(cell):
    return set(cell.get("metadata", {}).get("tags", []))


@pytest.fixture(params=NOTEBOOKS, ids=lambda path: path.stem)
def notebook(request):
    return read(request.param)


def test_there_are_notebooks():
    assert NOTEBOOKS


def test_compared_cells_are_run_tagged_rightly_and_hold_plain_text(notebook):
    for cell in notebook["cells"]:
        assert tags(cell) <= TAGS, (cell["id"], tags(cell) - TAGS)
        if cell["cell_type"] != "code":
            continue
        assert not re.search(r"#\s*(NBVAL|PYTEST)", source(cell), re.IGNORECASE), cell["id"]
        compared = "nbval-check-output" in tags(cell)
        assert compared == ("keep_output" in tags(cell)), cell["id"]
        # Its numbers are there to be changed: one that is refused must not keep the cells below from running.
        assert compared == ("raises-exception" in tags(cell)), (
            f"{cell['id']}: raises-exception goes with a compared cell"
        )
        assert cell["execution_count"], f"{cell['id']} was never run"
        if not compared:
            assert not cell["outputs"], f"{cell['id']} keeps an output nobody compares"
            continue
        assert cell["outputs"] and all(out["output_type"] == "stream" for out in cell["outputs"]), cell["id"]
        text = "".join("".join(out["text"]) for out in cell["outputs"])
        assert text.strip() and not re.search(r"np\.|<Quantity|Quantity\(|0x[0-9a-f]{6}", text), cell["id"]
        assert not source(cell).rstrip().endswith(";"), cell["id"]


def test_counts_rise_and_ids_are_unique(notebook):
    counts = [cell["execution_count"] for cell in notebook["cells"] if cell["cell_type"] == "code"]
    assert counts == list(range(1, len(counts) + 1))
    ids = [cell["id"] for cell in notebook["cells"]]
    assert len(set(ids)) == len(ids)


def test_nothing_of_a_session_is_committed(notebook):
    assert "widgets" not in notebook["metadata"]
    assert set(notebook["metadata"]) <= {"kernelspec", "language_info"}
    for cell in notebook["cells"]:
        assert not cell.get("attachments"), cell["id"]
        assert set(cell["metadata"]) <= {"tags", "jupyter"}, cell["id"]


def test_code_is_short_enough_for_a_reader_and_for_paper(notebook):
    for cell in notebook["cells"]:
        if cell["cell_type"] == "code":
            lines = source(cell).splitlines()
            assert len(lines) <= 12, cell["id"]
            assert max(map(len, lines)) <= 75, (cell["id"], max(lines, key=len))


def test_code_is_folded_under_a_line_that_says_what_it_is(notebook):
    """JupyterLab shows a folded cell as a bar with its first line: that line is for the reader."""
    for cell in notebook["cells"]:
        if cell["cell_type"] != "code":
            assert "jupyter" not in cell["metadata"], cell["id"]
            continue
        assert cell["metadata"].get("jupyter") == {"source_hidden": True}, f"{cell['id']} shows its code"
        first, text = source(cell).splitlines()[0], source(cell)
        assert re.fullmatch(r"# [A-Z][\w ,:?'-]{3,50}", first), (cell["id"], first)
        if "nbval-check-output" in tags(cell):
            assert first.startswith("# In Python: "), (cell["id"], first)
        if "benches.exercise(" in text:
            assert first.startswith("# Exercise: "), (cell["id"], first)


def test_what_follows_the_recap_is_folded_under_its_heading(notebook):
    for cell in notebook["cells"]:
        if "paper" in tags(cell) or source(cell).startswith("## Sources"):
            lines = source(cell).splitlines()
            assert lines[0].startswith("## ") and lines[2].startswith("<details><summary>"), cell["id"]
            assert lines[-1] == "</details>" and source(cell).count("<details>") == 1, cell["id"]


def test_formulas_are_plain_text_and_pictures_have_alt_text(notebook):
    for cell in notebook["cells"]:
        if cell["cell_type"] != "markdown":
            continue
        assert not re.search(r"\$[^$\n]*\\|\$\$|\\\(|\\begin", source(cell)), cell["id"]
        for image in re.findall(r"<img[^>]*>", source(cell)):
            assert 'alt="' in image, cell["id"]
        assert not re.search(r"!\[\]\(", source(cell)), cell["id"]


def test_set_up_comes_first_and_starts_the_lesson(notebook):
    at = next(i for i, cell in enumerate(notebook["cells"]) if cell["cell_type"] == "code")
    starts = r'benches\.start\("\d\d"\)' if "desk" not in notebook["cells"][0]["id"] else r"benches\.start\(\)"
    assert re.search(starts, source(notebook["cells"][at]))
    before = source(notebook["cells"][at - 1])
    assert before.startswith("**Now, and each time you come back:** *Run*, then *Run All Cells*"), before


@pytest.mark.parametrize(
    "path", [p for p in NOTEBOOKS if p.stem[:2].isdigit() and p.stem != "00-start-here"], ids=lambda p: p.stem
)
def test_lessons_keep_the_standard(path):
    notebook = read(path)
    markdown = [source(cell) for cell in notebook["cells"] if cell["cell_type"] == "markdown"]
    headings = [
        line.lstrip("# ").casefold() for text in markdown for line in text.splitlines() if line.startswith("## ")
    ]
    at = -1
    for wanted in STANDARD:
        found = [i for i, heading in enumerate(headings) if heading.startswith(wanted) and i > at]
        assert found, f"no section '{wanted}' after the ones before it: {headings}"
        at = found[0]
    title = markdown[0]
    minutes = re.search(r"\*\*Takes\*\* (\d+) minutes", title)
    assert title.startswith("# ") and minutes and 30 <= int(minutes[1]) <= 75 and "**Read before:**" in title
    assert "at the bench you will be able to" in title.casefold()
    everything = "\n".join(markdown)
    assert "**Careful.**" in everything and re.search(r"local (food )?code", everything)
    assert re.search(r"at home", everything, re.IGNORECASE)
    assert sum("paper" in tags(cell) for cell in notebook["cells"]) >= 2
    number = path.stem[:2]
    exercises = re.findall(
        rf'benches\.exercise\("({number}\.[\w-]+)"\)', "\n".join(source(c) for c in notebook["cells"])
    )
    last = [source(cell) for cell in notebook["cells"] if cell["cell_type"] == "code"][-1]
    assert last.endswith(f'benches.hand_in("{number}")'), "the last card is the one to hand in with"
    assert 4 <= len(exercises) <= 7 and len(set(exercises)) == len(exercises)


def test_every_exercise_stands_on_one_page_of_its_lesson():
    from pastrylab.course.catalogue import EXERCISES, own_exercises

    for e in EXERCISES.values():
        if e.id in own_exercises().exercises:
            continue
        pages = [
            path for path in LESSONS.glob(f"{e.lesson}*.ipynb") if f'benches.exercise("{e.id}")' in source_of(path)
        ]
        assert len(pages) == 1, (e.id, pages)


def test_every_lesson_shows_the_exercises_a_class_has_of_its_own_below_the_others():
    from pastrylab.course.catalogue import FOLDERS

    for number in FOLDERS:
        text = "\n".join(source_of(path) for path in sorted(LESSONS.glob(f"{number}*.ipynb")))
        shown = re.findall(rf'benches\.with_own_exercises\(benches\.exercise\("{number}\.[\w-]+"\)\)', text)
        assert len(shown) == 1, number
    for path in NOTEBOOKS:
        text = source_of(path)
        if "own_exercises(" in text:
            last = text.index("benches.with_own_exercises(")
            assert text.rindex("benches.exercise(") < text.index("\n", last) and last < text.index("\n## Recap")


def source_of(path):
    return "\n".join(source(cell) for cell in read(path)["cells"])


def test_worked_examples_do_not_read_the_exercise_values():
    for path in NOTEBOOKS:
        for cell in read(path)["cells"]:
            if "nbval-check-output" in tags(cell):
                assert "exercise" not in source(cell) and "values" not in source(cell), (path.stem, cell["id"])
