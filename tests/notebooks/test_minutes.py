"""The minutes a lesson says it takes, against its words, benches and exercises.

Judged, with no source but people who worked through the lessons with a clock beside them: 180 words a minute, four minutes for
a bench with its questions, five for an exercise with a calculator, one for a guess. What is folded at the end of the page, the paper
part and the sources, is not counted: the lesson names the sheet's minutes apart. So are those at the stove.
"""

import json
import re
from pathlib import Path

import pytest

LESSONS = sorted((Path(__file__).resolve().parents[2] / "lessons").glob("[0-9]*.ipynb"))
WORDS_A_MINUTE, A_BENCH, AN_EXERCISE, A_GUESS = 180, 4, 5, 1


def words(text):
    return len(re.findall(r"[^\W_]+(?:[.,'-][^\W_]+)*", re.sub(r"<[^>]+>|\]\([^)]*\)", " ", text)))


def minutes(cells):
    """What the cells of a lesson take."""
    found = 0.0
    for cell in cells:
        text = "".join(cell["source"])
        if cell["cell_type"] == "markdown":
            if "paper" not in cell["metadata"].get("tags", []) and not text.startswith("## Sources"):
                found += words(text) / WORDS_A_MINUTE
        elif "benches.exercise(" in text:
            found += AN_EXERCISE
        elif re.search(r"benches\.([a-z]+\.)?guess", text):
            found += A_GUESS
        elif cell["outputs"]:
            found += words("".join("".join(out["text"]) for out in cell["outputs"])) / WORDS_A_MINUTE
        elif not re.search(r"benches\.(start|check_installation|try_amount|my_name|hand_in|as_pages)\(", text):
            found += A_BENCH
    return found


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_a_lesson_takes_about_as_long_as_it_says(path):
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    stated = int(re.search(r"\*\*Takes\*\* (\d+) minutes", "".join(cells[0]["source"]))[1])
    counted = minutes(cells)
    assert abs(counted - stated) <= stated / 4, f"{path.stem} says {stated} minutes, counted are {counted:.0f}"
    assert stated % 5 == 0
