"""Would a wrong line be caught? Puts one small fault at a time into ground, trade, logs or school and runs their own tests.

    python tests/mutants/run.py                          300 faults, two at a time; some twenty minutes
    python tests/mutants/run.py --faults 40 trade.mixing  more of them in one module

A fault: a constant a tenth larger, + for -, * for /, a comparison turned round, and for or, True for False, min for max.
A module's own tests are those that import it or what is built right on it, those of the lessons' answers, and its
examples; of these, the ones that run the faulty line are tried. What nobody caught is listed; `survivors.md` beside this
file says why each known one may live. With PASTRYLAB_DEEP=1 the long sweeps are tried too. Needs a system that can fork
(not Windows).
"""

import argparse
import ast
import functools
import multiprocessing
import os
import random
import shutil
import tempfile
from pathlib import Path

import IPython  # noqa: F401 - this and the five below only so that no forked process has to read them again
import ipywidgets  # noqa: F401
import matplotlib.pyplot  # noqa: F401
import pandas  # noqa: F401
import pint  # noqa: F401
import scipy.stats  # noqa: F401
from touched import by_file, run, span

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("ground", "trade", "logs", "school")
SWAPS = {ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.Pow: "*"}
TURNED = {ast.Lt: ">=", ast.LtE: ">", ast.Gt: "<=", ast.GtE: "<", ast.Eq: "!=", ast.NotEq: "=="}
PARTNER = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}
CAUGHT, LIVED, SLOW = "caught", "lived", "caught (out of time)"
_A_QUOTATION = 20  # letters
_LAST_DIGITS = tuple(10.0**-power for power in range(6, 16))


def sites(text):
    """Every place of a module where a fault can stand: (line, column from, column to, what to write there)."""
    tree = ast.parse(text)
    nobody_would_notice = set(map(id, _unnoticed(tree)))
    for node in ast.walk(tree):
        if id(node) not in nobody_would_notice:
            yield from _faults(node, text.splitlines())


def _unnoticed(tree):
    """Constants whose change no answer and no page could show: where a quotation is cut, how many near names are looked
    for, whether a dataclass is frozen, what a guard against a float's last digits comes to."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Slice) and not node.lower and isinstance(node.upper, ast.Constant):
            yield from [node.upper] if node.upper.value >= _A_QUOTATION else []
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith(("dataclass", "get_close_matches")):
            yield from [*node.args, *(keyword.value for keyword in node.keywords)]
        elif isinstance(node, ast.Constant) and node.value in _LAST_DIGITS:
            yield node


def _faults(node, lines):
    if isinstance(node, ast.BinOp) and type(node.op) in SWAPS:
        yield from _between(node.left, node.right, lines, SWAPS[type(node.op)])
    elif isinstance(node, ast.Compare) and type(node.ops[0]) in TURNED:
        yield from _between(node.left, node.comparators[0], lines, TURNED[type(node.ops[0])])
    elif isinstance(node, ast.BoolOp):
        word = "or" if isinstance(node.op, ast.And) else "and"
        yield from _between(node.values[0], node.values[1], lines, word)
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield node.lineno, node.col_offset, node.end_col_offset, str(not node.value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        wrong = node.value + 1 if isinstance(node.value, int) else node.value * 1.1 or 0.1
        yield node.lineno, node.col_offset, node.end_col_offset, repr(wrong)
    elif isinstance(node, ast.Name) and node.id in PARTNER:
        yield node.lineno, node.col_offset, node.end_col_offset, PARTNER[node.id]


def _between(left, right, lines, word):
    """The sign between two operands, where it stands alone on their line."""
    if left.end_lineno == right.lineno:
        between = lines[left.end_lineno - 1].encode()[left.end_col_offset : right.col_offset].decode()
        sign = between.strip(" ()")
        if sign and sign in between:
            start = left.end_col_offset + between.index(sign)
            yield left.end_lineno, start, start + len(sign), word


def with_fault(text, site):
    """The module's text with one fault in it."""
    line, start, end, wrong = site
    lines = text.splitlines(keepends=True)
    row = lines[line - 1].encode()  # the syntax tree counts bytes
    lines[line - 1] = (row[:start] + wrong.encode() + row[end:]).decode()
    return "".join(lines)


@functools.cache
def own_tests(module):
    """The tests of a module: the files that import it, its package's face or a module of its room built right on it, those
    named for it, and the lessons' answers for trade and school. Those of the pages are left out: they try what lies below
    them too, but slowly, and not closely."""
    room = module.split(".")[0]
    built_on_it = {m for m in all_modules() if m.startswith(f"{room}.") and _knows(ROOT / source(m), module)}
    wanted = {module} | built_on_it - {_EVERYBODYS}
    topics = tuple(f"test_{one.split('.')[-1]}" for one in {module} | built_on_it & {_EVERYBODYS})
    tests = [
        path for path in sorted((ROOT / "tests").rglob("test_*.py")) if not {"browser", "notebooks"} & set(path.parts)
    ]
    answers = (ROOT / "tests" / "answers") if room in ("trade", "school") else None
    own = [
        str(path.relative_to(ROOT))
        for path in tests
        if path.stem.startswith(topics)
        or path.parent == answers
        or (any(_knows(path, one) for one in wanted) and not any(_knows(path, one) for one in _PAGES))
    ]
    return [*own, f"tests/test_examples.py::test_the_examples_hold[pastrylab.{module}]"]


_EVERYBODYS = "ground.units"  # who imports it need not try it
_PAGES = ("page", "course.benches")


def _knows(path, module):
    """Whether a file imports a module, something in it, or the face of the folder it stands in."""
    parts = module.split(".")
    names = imported(path)
    return any(".".join(parts[:depth]) in names for depth in range(min(2, len(parts)), len(parts) + 1)) or (
        len(parts) > 1 and f"*.{parts[1]}" in names
    )


@functools.cache
def imported(path):
    """The modules a file imports, each with the folders it stands in; "*.topic" for one by the package's front door."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "pastrylab":
            room = node.module.removeprefix("pastrylab").removeprefix(".")
            found |= {f"{room or '*'}.{alias.name}" for alias in node.names}
            while room:
                found.add(room)
                room = room.rpartition(".")[0]
    return found - set(ROOMS)


def seconds_of(touched, fault):
    """{test function: seconds} of those of the module's own tests that run the faulty line; all of them for a line that is
    run when the module is read, such as a constant's."""
    module, (line, *_rest) = fault
    name, text = str(source(module)), (ROOT / source(module)).read_text(encoding="utf-8")
    statement = span(text, line)
    found = {}
    for test in own_tests(module):
        for function, files in touched[test]["lines"].items():
            if statement is None or any(statement[0] <= one <= statement[1] for one in files.get(name, ())):
                found[function] = touched[test]["seconds"][function]
    return found


def became(house, fault, takes):
    """Put one fault in, run the tests that may notice, the quick ones first, and say what became of it."""
    module, site = fault
    if not takes:
        return LIVED
    path = house / source(module)
    sound = path.read_text(encoding="utf-8")
    path.write_text(with_fault(sound, site), encoding="utf-8")
    try:
        code = run(house, sorted(takes, key=takes.get), 60 + 3 * sum(takes.values()))
    finally:
        path.write_text(sound, encoding="utf-8")
    if code not in (0, 1, 2, 4, None):  # 2 and 4: a test file that cannot even be read with the fault in it
        raise RuntimeError(f"{shown(fault)}: pytest ended with {code}")
    return {0: LIVED, None: SLOW}.get(code, CAUGHT)


def source(module):
    return Path("pastrylab", *module.split(".")).with_suffix(".py")


def shown(fault):
    """A fault in one line: where it stands, what is written there, and the line as it was."""
    module, (line, start, _end, wrong) = fault
    row = (ROOT / source(module)).read_text(encoding="utf-8").splitlines()[line - 1]
    return f"{module}:{line}:{start} -> {wrong}    {row.strip()[:110]}"


def drawn(modules, number, seed):
    """A number of faults drawn evenly from all places of these modules: (module, site)."""
    every = []
    for module in modules:
        text = (ROOT / source(module)).read_text(encoding="utf-8")
        every += [(module, site) for site in dict.fromkeys(sites(text))]
    return random.Random(seed).sample(every, min(number, len(every)))


def all_modules():
    for room in ROOMS:
        for path in sorted((ROOT / "pastrylab" / room).rglob("*.py")):
            if path.stem != "__init__":
                yield ".".join(path.relative_to(ROOT / "pastrylab").with_suffix("").parts)


def main():
    chosen = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    chosen.add_argument("modules", nargs="*", help="such as trade.mixing or trade; all four rooms without")
    chosen.add_argument("--faults", type=int, default=300)
    chosen.add_argument("--seed", type=int, default=1)
    chosen.add_argument("--at-once", type=int, default=2)
    chosen = chosen.parse_args()
    wanted = tuple(chosen.modules)
    modules = [m for m in all_modules() if not wanted or m in wanted or m.startswith(tuple(f"{w}." for w in wanted))]
    faults = drawn(modules, chosen.faults, chosen.seed)
    tests = list(dict.fromkeys(test for module, _site in faults for test in own_tests(module)))
    with tempfile.TemporaryDirectory() as folder, multiprocessing.Pool(chosen.at_once, _moves_in, (folder,)) as pool:
        touched = dict(zip(tests, pool.map(_sound, tests, chunksize=1), strict=True))
        fates = pool.imap(_fate, [(fault, seconds_of(touched, fault)) for fault in faults])
        lived = []
        for number, (fault, fate) in enumerate(zip(faults, fates, strict=True), start=1):
            if fate == LIVED:
                lived.append(fault)
            print(f"{number:4} {fate:22} {shown(fault)}", flush=True)
    print("\nnobody caught:")
    for fault in sorted(lived):
        print(shown(fault))
    print(f"{len(faults) - len(lived)} of {len(faults)} faults caught: {1 - len(lived) / max(1, len(faults)):.1%}")


def _moves_in(folder):
    """Each worker has a copy of the house, so that two faults never meet."""
    global HOUSE
    HOUSE = Path(folder) / str(os.getpid())
    leave_out = shutil.ignore_patterns(
        ".git", ".venv", "__pycache__", ".hypothesis", ".*_cache", "my-answers", "my-kitchen"
    )
    shutil.copytree(ROOT, HOUSE, ignore=leave_out)


def _sound(test):
    return by_file(HOUSE, test)


def _fate(work):
    return became(HOUSE, *work)


if __name__ == "__main__":
    main()
