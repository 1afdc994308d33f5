"""Would a wrong line be caught? Puts one small fault at a time into ground, trade, logs or school and runs their own tests.

    python tests/mutants/run.py                          300 faults, two at a time; some twenty minutes
    python tests/mutants/run.py --faults 40 trade.mixing  more of them in one module

A fault: a constant a tenth larger, + for -, * for /, a comparison turned round, and for or, True for False, min for max.
A module's own tests are those that import it, those of the lessons' answers, and its examples. What nobody
caught is listed; `survivors.md` beside this file says why each known one may live.
"""

import argparse
import ast
import concurrent.futures
import os
import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("ground", "trade", "logs", "school")
SWAPS = {ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.Pow: "*"}
TURNED = {ast.Lt: ">=", ast.LtE: ">", ast.Gt: "<=", ast.GtE: "<", ast.Eq: "!=", ast.NotEq: "=="}
PARTNER = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}
CAUGHT, LIVED, SLOW = "caught", "lived", "caught (out of time)"
MOST_SECONDS = 240


def sites(text):
    """Every place of a module where a fault can stand: (line, column from, column to, what to write there)."""
    for node in ast.walk(ast.parse(text)):
        yield from _faults(node, text.splitlines())


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


def own_tests(module):
    """The test files of a module: those that import it or its package's face, the lessons' answers for what they use."""
    topic = module.split(".")[-1]
    found = [path for path in sorted((ROOT / "tests").rglob("test_*.py")) if _imports(path, module)]
    named = [path for path in sorted((ROOT / "tests").rglob(f"test_{topic}*.py")) if path not in found]
    kept = [path for path in (*found, *named) if not {"browser", "notebooks"} & set(path.parts)]
    answers = sorted((ROOT / "tests" / "answers").glob("test_*.py")) if module.startswith(("trade", "school")) else []
    paths = dict.fromkeys(str(path.relative_to(ROOT)) for path in (*kept, *answers))
    return [*paths, f"tests/test_examples.py::test_the_examples_hold[pastrylab.{module}]"]


def _imports(path, module):
    """Whether a file imports a module, or the face of the folder it stands in."""
    parts = module.split(".")
    return any(_names(path, ".".join(parts[:depth])) for depth in range(2, len(parts) + 1))


def _names(path, module):
    room, _, topic = module.rpartition(".")
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            if node.module == f"pastrylab.{module}":
                return True
            if node.module in (f"pastrylab.{room}", "pastrylab") and topic in {a.name for a in node.names}:
                return True
    return False


def tried(house, module, site=None):
    """Run a module's own tests with the fault in it (or none), in a copy of the house; say what became of it."""
    path = house / "pastrylab" / (module.replace(".", "/") + ".py")
    sound = path.read_text(encoding="utf-8")
    if site:
        path.write_text(with_fault(sound, site), encoding="utf-8")
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *own_tests(module)]
    try:
        done = subprocess.run(
            command,
            cwd=house,
            capture_output=True,
            timeout=MOST_SECONDS,
            env={**os.environ, "PYTHONPATH": str(house), "PYTHONDONTWRITEBYTECODE": "1"},
        )
        if done.returncode not in (0, 1):  # neither passed nor failed: nothing was tested
            raise SystemExit(f"{module}: {done.stdout.decode()[-2000:]}{done.stderr.decode()[-500:]}")
        return LIVED if done.returncode == 0 else CAUGHT
    except subprocess.TimeoutExpired:
        return SLOW
    finally:
        path.write_text(sound, encoding="utf-8")


def drawn(modules, number, seed):
    """A number of faults drawn evenly from all places of these modules: (module, site)."""
    every = []
    for module in modules:
        text = (ROOT / "pastrylab" / (module.replace(".", "/") + ".py")).read_text(encoding="utf-8")
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
    lived, houses = [], []
    with tempfile.TemporaryDirectory() as folder:
        for number in range(chosen.at_once):
            houses.append(Path(folder) / str(number))
            leave_out = shutil.ignore_patterns(".git", ".venv", "__pycache__", ".hypothesis", ".*_cache", "my-answers")
            shutil.copytree(ROOT, houses[-1], ignore=leave_out)
        for module in dict.fromkeys(module for module, _site in faults):
            if tried(houses[0], module) != LIVED:
                raise SystemExit(f"{module}: its own tests fail without any fault")
        with concurrent.futures.ThreadPoolExecutor(chosen.at_once) as pool:
            works = [
                pool.submit(lambda part, house: [(f, tried(house, *f)) for f in part], faults[i :: len(houses)], house)
                for i, house in enumerate(houses)
            ]
            for work in works:
                lived += [fault for fault, became in work.result() if became == LIVED]
    for module, (line, start, _end, wrong) in sorted(lived):
        text = (ROOT / "pastrylab" / (module.replace(".", "/") + ".py")).read_text(encoding="utf-8").splitlines()
        print(f"{module}:{line}:{start} -> {wrong}    {text[line - 1].strip()[:110]}")
    print(f"{len(faults) - len(lived)} of {len(faults)} faults caught: {1 - len(lived) / max(1, len(faults)):.1%}")


if __name__ == "__main__":
    main()
