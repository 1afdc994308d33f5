"""What a lesson's cells call: start a lesson, guess, try a bench, answer an exercise."""

import gc
import importlib
import importlib.metadata
import sys
import tempfile

import pint

from pastrylab.course import catalogue
from pastrylab.ground import files, kitchen
from pastrylab.ground.units import Q, StudentError, show
from pastrylab.page.cards import AmountCard as try_amount
from pastrylab.page.cards import ExerciseCard
from pastrylab.page.cards import GuessCard as guess
from pastrylab.page.cards import NameCard as my_name
from pastrylab.page.on_paper import also_on_paper
from pastrylab.page.own_values import OwnValuesCard
from pastrylab.school import answers, exercise_values, own_values, whose

__all__ = [
    "as_pages",
    "check_installation",
    "exercise",
    "guess",
    "hand_in",
    "my_formula",
    "my_kitchen",
    "my_name",
    "own_exercises",
    "start",
    "try_amount",
    "with_own_exercises",
    *catalogue.FOLDERS.values(),
]

also_on_paper()  # every cell of a lesson comes by here
# What is imported by now stays as long as its page: to look through it again for what nobody needs any more takes an eighth
# of the time in which a lesson runs.
gc.freeze()


def __getattr__(name):
    """A lesson's benches, imported when one of them is asked for: lesson 02 does not wait for the others."""
    if name not in catalogue.FOLDERS.values():
        raise AttributeError(f"module '{__name__}' has no attribute '{name}'")
    return importlib.import_module(f"pastrylab.course.{name}.benches")


def exercise(which):
    """The card of an exercise, by its id such as "02.seed-for-a-bowl". Raises StudentError listing the ids."""
    with files.one_look():
        return ExerciseCard(catalogue.exercise(which))


def own_exercises(lesson):
    """The cards of the exercises that the class has of its own in a lesson such as "02"; None where there are none."""
    from pastrylab.page.own_exercises import OwnExercises  # few classes have any

    added = catalogue.own_exercises()
    mine = [e for e in added.exercises.values() if e.lesson == lesson]
    faults = [str(fault) for owner, fault in added.faults if owner[:2] in (lesson, "")]
    return OwnExercises(mine, faults) if mine or faults else None


def with_own_exercises(card):
    """The last exercise card of a lesson, and below it those that the class has of its own there: no cell stands empty
    where it has none."""
    own = own_exercises(card.exercise.lesson)
    if own is None:
        return card
    own.children = [card, *own.children]
    return own


def hand_in(lesson):
    """The last card of a lesson, by its number such as "02": what is still open, and one file to hand in."""
    from pastrylab.page.hand_in import HandInCard  # needed at the end of a page

    return HandInCard(lesson, catalogue.of_lesson(lesson))


def as_pages():
    """Links to every lesson as a page without code, where Voilà is installed beside the lessons; else how to come by it."""
    from pastrylab.page.as_pages import AsPages  # on the first page alone

    return AsPages()


def my_formula(step=""):
    """The formula box, open at the step whose title holds that word; the same formula in every lesson."""
    from pastrylab.page.formula.box import FormulaBox  # not every lesson has one

    return FormulaBox(step)


def my_kitchen(first="An ingredient"):
    """The reader's own labels, couvertures and prices, each with its form."""
    from pastrylab.page.kitchen.my_kitchen import MyKitchen  # as above

    return MyKitchen(first)


def start(lesson=""):
    """The first cell of a lesson, or of the instructor's desk, which is none: versions, the id of the exercise values and
    whose they are; a card if changed by hand."""
    version, values, name = importlib.metadata.version("pastrylab"), exercise_values.values(), whose.student()
    page = f"Lesson {lesson}" if lesson else "The instructor's desk"
    print(f"{page} · pastrylab {version} · pint {pint.__version__} · exercise values {values.id}")
    by_hand = own_values.by_hand()
    common = "values changed by hand on this machine" if by_hand else "the class values"
    drawn = f"values drawn for: {name}{f', term {values.word}' * bool(values.word)}"
    print(f"Your exercises use {drawn if name else common}.")
    _, torn = answers.read(lesson) if lesson else ((), ())
    if torn:
        print(f"In my-answers/{lesson}.jsonl line {', '.join(map(str, torn))} could not be read and was passed over.")
    return OwnValuesCard() if by_hand else None


def check_installation():
    """Try what the lessons need, one plain sentence each: units, exercise values, a picture, a folder to write in."""
    print(f"Python {sys.version.split()[0]} with pastrylab {importlib.metadata.version('pastrylab')}: found.")
    print(f"Units: 90 degF is {show(Q('90 degF').to('degC'), 3)}.")
    try:
        found, values = catalogue.check(students=20), exercise_values.values()
        known = catalogue.EXERCISES.keys()
        broken = {owner for owner, _fault in values.faults} & known
        print(f"Exercise values {values.id}: {len(known) - len(broken)} of {len(known)} exercises can be set.")
        for problem in found:
            whose = "Yours to mend" if kitchen.FOLDER_NAME in problem else "Tell your instructor"
            print(f"  {whose}: {problem}")
    except StudentError as error:
        print(f"The exercise values cannot be used. Tell your instructor: {error}")
    picture = importlib.import_module("pastrylab.course.tempering.figures").SeedBalance()
    picture.update(batch=2, melted_at=45, seed_at=20, target=31.5, melted_share=0.9)
    print(f"A picture: drawn ({len(picture.png()) // 1000} kB).")
    try:
        answers.folder().mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=answers.folder()):
            pass
        where = ", on the class's server, where your instructor can read them" if files.course() else ""
        print(f"Your answers will be kept in {answers.folder().parent.name}/{answers.folder().name}{where}.")
    except OSError as error:
        print(
            f"Your answers cannot be kept in {answers.folder()} ({error.strerror}). "
            "Move the workbook to a folder of your own."
        )
    print("If a slider or a box to type in stands under the next grey box when you run it, all is well.")
