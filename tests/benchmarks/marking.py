"""How long a class takes to mark, against json reading the same lines: `python tests/benchmarks/marking.py 100 1000`.

Each student answers every exercise with numbers of their own, once to three times. CPU time, in one process: on every
core it is less by the wall.
"""

import json
import random
import resource
import sys
import tempfile
import time
import zipfile
from pathlib import Path

from pastrylab.course.catalogue import EXERCISES
from pastrylab.desk import cores, marked
from pastrylab.ground.files import one_look
from pastrylab.school import engine, exercise_values

cores.ENOUGH = float("inf")  # lines: all in this process


@one_look()
def answers(dice):
    """{exercise: function that types something near its answer}."""
    found = {}
    for which, exercise in EXERCISES.items():
        expected, unit = engine.case(exercise).expected, exercise.unit.removeprefix("delta_")
        if isinstance(expected, str):
            found[which] = lambda: dice.choice("ABCD")
        else:
            money = not isinstance(expected, float)
            number, unit = (float(expected.amount), "USD") if money else (expected, unit)
            found[which] = lambda number=number, unit=unit: f"{number * dice.uniform(0.5, 1.5):.4g} {unit}"
    return found


def hand_ins(folder, many):
    """A zip a student, with a file a lesson; the class list beside them."""
    dice, values = random.Random(1), exercise_values.values().id
    typed = answers(dice)
    for number in range(1, many + 1):
        lessons = {}
        for which, exercise in EXERCISES.items():
            for day in range(5, 5 + dice.choice((1, 1, 2, 3))):
                when = f"2026-10-{day:02}T10:{dice.randint(0, 59):02}:{dice.randint(0, 59):02}+00:00"
                entry = {
                    "when": when,
                    "student": str(number),
                    "exercise": which,
                    "answer": typed[which](),
                    "values": values,
                }
                lessons.setdefault(exercise.lesson, []).append(json.dumps(entry))
        with zipfile.ZipFile(folder / f"number-{number}.zip", "w", zipfile.ZIP_DEFLATED) as archive:
            for lesson, lines in lessons.items():
                archive.writestr(f"my-answers/{lesson}.jsonl", "\n".join(lines) + "\n")
    roll = folder.with_suffix(".csv")
    roll.write_text("number\n" + "".join(f"{number}\n" for number in range(1, many + 1)), encoding="utf-8")
    return roll


def bare(folder):
    """(CPU seconds of json.loads alone, lines)."""
    seconds = lines = 0
    for path in folder.glob("*.zip"):
        with zipfile.ZipFile(path) as archive:
            texts = [archive.read(one).splitlines() for one in archive.namelist()]
        start = time.process_time()
        lines += sum(1 for text in texts for line in text if json.loads(line))
        seconds += time.process_time() - start
    return seconds, lines


def main(sizes):
    print("| hand-ins | lines | json | ours | ratio | a hand-in | peak memory so far |\n|---|---|---|---|---|---|---|")
    for many in map(int, sizes):
        with tempfile.TemporaryDirectory() as top:
            folder = Path(top, "hand-ins")
            folder.mkdir()
            roll = hand_ins(folder, many)
            json_alone, lines = bare(folder)
            start = time.process_time()
            marked.mark_folder(folder, roll, Path(top, "marks"))
            ours = time.process_time() - start
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        figures = (
            f"{json_alone:.2f} s | {ours:.1f} s | {ours / json_alone:.0f} | {1000 * ours / many:.0f} ms | {peak:.0f} MB"
        )
        print(f"| {many} | {lines} | {figures} |", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:] or ["100", "1000"])
