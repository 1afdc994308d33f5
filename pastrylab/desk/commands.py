"""The command line: ``pastrylab open``, ``check``, ``key``, ``handout``, ``plan``, ``mark``, ``archive``. Each command imports only what it needs."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path


def _open(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import lab, workbook

    return lab.open_lab(workbook.prepare(Path.cwd(), chosen.folder), chosen.browser, chosen.page)


def _check(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import checked

    found = checked.check_all(
        chosen.values,
        roll=chosen.roll,
        since=chosen.since,
        progress=lambda sentence: print(sentence, file=sys.stderr, flush=True),
    )
    print("\n".join(found.said))
    return 1 if found.faults else 0


def _key(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import keys, marked

    if chosen.out:
        whose = (chosen.roll, chosen.lesson, chosen.section, chosen.student)
        bar = marked.Bar()
        said = keys.make_keys(chosen.out, *whose, chosen.values, chosen.sheets, bar)
        bar("")
    elif chosen.roll or chosen.sheets:
        from pastrylab.ground.units import StudentError

        raise StudentError("a key for a class without a place for it", "--out and a folder", "--out keys")
    else:
        said = keys.key_text(chosen.lesson, chosen.section, chosen.student, chosen.values)
    print("\n".join(said))
    return 0


def _plan(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import planned

    fits, said = planned.plan_order(
        chosen.order,
        chosen.out,
        chosen.aim,
        chosen.rejects,
        chosen.seconds,
        chosen.law,
        chosen.box,
        chosen.students,
        chosen.absent,
    )
    print("\n".join(said))
    return 0 if fits else 1


def _mark(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import marked

    bar = marked.Bar()
    said = marked.mark_folder(
        chosen.folder, chosen.roll, chosen.out, chosen.values, chosen.rules, chosen.term_start, bar, chosen.explain
    )
    bar("")
    print("\n".join(said))
    return 0


def _archive(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import archived

    clean, said = archived.archive(chosen.folder, chosen.roll, chosen.out, students=chosen.students)
    print("\n".join(said))
    return 0 if clean else 1


def _paper(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import paper

    print("\n".join(paper.paper_of(chosen.lesson, chosen.out, chosen.roll, chosen.dates, chosen.benches)))
    return 0


def _print(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import printed

    for number in chosen.lesson:
        print(f"Running lesson {number} once: some seconds.", file=sys.stderr, flush=True)
        print("\n".join(printed.print_lesson(number, chosen.out)), flush=True)
    return 0


def _handout(chosen: argparse.Namespace) -> int:
    from pastrylab.desk import handout

    made = handout.hand_out(chosen.out, anyway=chosen.anyway)
    for fault in made.faults:
        print(f"Handed out all the same: {fault}")
    for name in made.left_out:
        print(f"Left out, as no lesson reads it: {name}")
    print(f"Give your students this file, with exercise values {made.values}:\n  {made.wheel}")
    print(f"They put it into a folder of their own and type there, as one line:\n  {made.line}")
    print(f"On Windows, in PowerShell:\n  {made.line_on_windows}")
    print(f"The same on a page to print: {made.page}")
    return 0


def parser() -> argparse.ArgumentParser:
    """The parser of the whole command line; each subcommand sets ``run`` to the function that does it."""
    top = argparse.ArgumentParser(prog="pastrylab", description="A workbook for a chocolate and confectionery lab.")
    top.add_argument("--version", action="store_true", help="say which version this is, and stop")
    commands = top.add_subparsers(title="commands", metavar="COMMAND")

    _add_open(commands)

    command = commands.add_parser(
        "check", help="check every sheet after changing one: what to mend, and what has moved"
    )
    command.add_argument("--values", metavar="FILE", help="check this file instead of the one in force")
    command.add_argument("--class", dest="roll", metavar="FILE", help="look at this class list too")
    command.add_argument("--since", metavar="FILE", help="say what moved since these values (the last hand-out's)")
    command.set_defaults(run=_check)

    command = commands.add_parser("handout", help="make the file that students install, with your values and lessons")
    command.add_argument("--out", default="hand-out", metavar="FOLDER", help="where it goes (./hand-out)")
    command.add_argument("--anyway", action="store_true", help="also where a row is at fault: its exercise says so")
    command.set_defaults(run=_handout)

    _add_key(commands)
    _add_plan(commands)
    _add_mark(commands)
    _add_archive(commands)
    _add_paper(commands)
    _add_print(commands)
    return top


def _add_open(commands):
    first = "lessons/00-start-here.ipynb"
    for name, page, what in (
        ("open", f"doc/tree/{first}", "open the lessons in JupyterLab, making a working copy if need be"),
        ("desk", "doc/tree/lessons/instructor-desk.ipynb", "open the instructor's desk: these commands, by buttons"),
        ("pages", f"voila/render/{first}", "open the lessons as pages without code, as on a telephone"),
    ):
        command = commands.add_parser(name, help=what)
        command.add_argument("--no-browser", dest="browser", action="store_false", help="only print the address")
        command.add_argument("--folder", metavar="DIR", help="where the working copy is or goes (./pastrylab-workbook)")
        command.set_defaults(run=_open, page=page)


def _add_key(commands):
    command = commands.add_parser("key", help="answers and working, for one student or a class; exercises on paper")
    command.add_argument("--student", action="append", default=[], metavar="NUMBER", help="whose values; several times")
    command.add_argument("--lesson", action="append", default=[], metavar="NN", help="of this lesson; several times")
    command.add_argument(
        "--class", dest="roll", metavar="FILE", help="for everybody of this CSV: number, name, section"
    )
    command.add_argument(
        "--section",
        default="",
        metavar="NAME",
        help="these of the class list alone; without one, the section of --student",
    )
    command.add_argument("--out", metavar="FOLDER", help="pages to print and a table, instead of text here")
    command.add_argument("--sheets", action="store_true", help="the exercises on paper too, with room to write")
    command.add_argument("--values", metavar="FILE", help="with the values of this file instead of those in force")
    command.set_defaults(run=_key)


def _add_plan(commands):
    command = commands.add_parser("plan", help="plan a lab day from an order: requisition, timeline, bench sheets")
    command.add_argument(
        "order", metavar="ORDER", nargs="+", help="a file, or one a section, with a line a flavour: 60 dark ganache"
    )
    command.add_argument(
        "--out", metavar="FOLDER", required=True, help="where requisition.csv, plan.csv and the pages go"
    )
    command.add_argument("--aim", default="latest start", help="latest start, shortest day or evenest work")
    command.add_argument("--rejects", default="0 %", help="share that is not good: 10 %%, or 2 in 25")
    command.add_argument("--students", type=int, help="how many are there, in pairs; else the pairs of lab.csv")
    command.add_argument("--seconds", type=float, default=10.0, help="the longest it may look for a plan")
    command.add_argument("--law", default="US", help="of the labels: US or EU")
    command.add_argument("--box", default="12", help="pieces in a box, for the labels")
    command.add_argument("--absent", default="", help="for make-up labs: 17: day 1; 23: both days")
    command.set_defaults(run=_plan)


def _add_mark(commands):
    command = commands.add_parser("mark", help="mark what a class handed in: gradebook, slips, what to look at")
    command.add_argument("folder", metavar="FOLDER", help="folders and zips as they came, also zips within zips")
    command.add_argument("--class", dest="roll", metavar="FILE", required=True, help="CSV: number, name, section")
    command.add_argument("--out", metavar="FOLDER", required=True, help="where gradebook.csv and the others go")
    command.add_argument("--values", metavar="FILE", nargs="+", default=[], help="values given out earlier this term")
    command.add_argument("--rules", metavar="FILE", help="due dates and points (datasets/marking.csv)")
    command.add_argument("--term-start", default="", metavar="DATE", help="nothing answered before it counts")
    command.add_argument(
        "--explain", metavar="NUMBER", nargs="+", default=[], help="a page on each of these, or on all"
    )
    command.set_defaults(run=_mark)


def _add_archive(commands):
    command = commands.add_parser("archive", help="a term's folder once more, with numbers in place of names")
    command.add_argument("folder", metavar="FOLDER", help="hand-ins, marks and what else there is; it is not touched")
    command.add_argument("--class", dest="roll", metavar="FILE", required=True, help="CSV: number, name, section")
    command.add_argument("--out", default="", metavar="FOLDER", help="a new folder (beside it, FOLDER-without-names)")
    command.add_argument(
        "--students", metavar="FOLDER", help="on a class's server: the students' folders, whose answers go along"
    )
    command.set_defaults(run=_archive)


def _add_paper(commands):
    command = commands.add_parser("paper", help="sheets to print: pre-lab, rubric, pieces, lab sheets, attendance")
    command.add_argument("--lesson", metavar="NUMBER", nargs="+", default=[], help="such as 02 (all lessons)")
    command.add_argument("--out", default="paper", metavar="FOLDER", help="where the pages go (./paper)")
    command.add_argument("--class", dest="roll", metavar="FILE", help="CSV: number, name, section (blank rows)")
    command.add_argument("--dates", default="", metavar="DATES", help="of the attendance: '2026-10-05; 2026-10-12'")
    command.add_argument("--benches", default="6", metavar="COUNT", help="how many lab sheets (6)")
    command.set_defaults(run=_paper)


def _add_print(commands):
    command = commands.add_parser("print", help="a lesson as it stands after Run All, as one page to print")
    command.add_argument("--lesson", metavar="NUMBER", nargs="+", required=True, help="such as 02")
    command.add_argument("--out", default="paper", metavar="FOLDER", help="where the page goes (./paper)")
    command.set_defaults(run=_print)


def main(arguments: list[str] | None = None) -> int:
    """Run one command; return the exit status: 0 done, 1 problems found, 2 something given was wrong."""
    chosen = parser().parse_args(arguments)
    if chosen.version:
        from pastrylab.desk import workbook

        print(workbook.version())
        return 0
    if not hasattr(chosen, "run"):
        parser().print_help()
        return 2
    if not sys.stdout.isatty() and hasattr(sys.stdout, "reconfigure"):
        # Redirected on Windows, output would be in a code page that lacks signs such as the degree or a
        # fraction.
        sys.stdout.reconfigure(encoding="utf-8")
    try:
        status = chosen.run(chosen)
        sys.stdout.flush()
        return status
    except KeyboardInterrupt:
        return 130
    except BrokenPipeError:
        # The reader of a pipe, such as head, has had enough; Python must not complain when it closes the
        # stream.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except Exception as error:
        from pastrylab.ground.units import StudentError

        if not isinstance(error, StudentError):
            raise
        print(error, file=sys.stderr)
        return 2
