"""Judging on every core of the machine, where there is so much of it that it pays."""

import contextlib
import multiprocessing
import os
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

from pastrylab.course import catalogue
from pastrylab.ground.files import one_look
from pastrylab.ground.units import StudentError
from pastrylab.school import exercise_values
from pastrylab.school.judging import Judge
from pastrylab.school.marking import mark_exercise

ENOUGH = 25_000  # lines, some 250 hand-ins: a process needs a second before it judges its first
_MOST = 8
_own = {}  # of a process that does nothing else: its judge, and its one look at the disk


def given_out(paths):
    """[Values] in force and at the paths, files or folders of them, with every word of the term. Raises StudentError."""
    known = exercise_values.of_each_section()
    for path in map(Path, paths):
        files = sorted(path.glob("*.csv")) if path.is_dir() else [path]
        if not files:
            raise StudentError(f"{path}, a folder without CSV files", "the values that were given out", "values")
        for file in files:
            known += exercise_values.of_each_section(exercise_values.values(file))
    return known


def spread(tasks, paths):
    """The marks of each Asked, in order, from as many processes as pay; from this one where none can be started.

    paths: of the values given out, as `given_out` takes them. Yields as `mark_exercise` returns.
    """
    done, lines = 0, sum(len(lines) for task in tasks for *_who, lines in task.students)
    workers = min(_cores(), _MOST) if lines >= ENOUGH else 1
    if workers > 1:
        try:
            # A process begun anew is the same on every system; a forked one would share the notebook's threads.
            apart = multiprocessing.get_context("spawn")
            with ProcessPoolExecutor(workers, apart, _begin, (list(map(str, paths)),)) as pool:
                for marks in pool.map(_in_its_own, tasks):
                    yield marks
                    done += 1
        except (OSError, BrokenProcessPool):
            pass
    judge = Judge(catalogue.EXERCISES, given_out(paths)) if done < len(tasks) else None
    for task in tasks[done:]:
        yield mark_exercise(judge, task)


def _cores():
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _begin(paths):
    _own["look"] = contextlib.ExitStack()  # kept, or the look would end here
    _own["look"].enter_context(one_look())
    _own["judge"] = Judge(catalogue.EXERCISES, given_out(paths))


def _in_its_own(task):
    return mark_exercise(_own["judge"], task)
