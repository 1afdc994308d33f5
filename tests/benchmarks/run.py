"""Figures of speed and memory, each against the same work done bare, in one run: `python tests/benchmarks/run.py`.

Run by hand on a quiet machine; the table it prints is kept in baseline.md. Ratios count, not seconds.
"""

import io
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import nbformat
import numpy as np
import page
import pint

ROOT = Path(__file__).resolve().parents[2]
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # a reader's Python keeps what it compiled
os.environ["PASTRYLAB_WORKBOOK"] = tempfile.mkdtemp()
Path(os.environ["PASTRYLAB_WORKBOOK"], "lessons").mkdir()

from pastrylab import Formula  # noqa: E402
from pastrylab.course.tempering import benches as tempering_bench  # noqa: E402
from pastrylab.ground import datasets  # noqa: E402
from pastrylab.ground.units import Q  # noqa: E402
from pastrylab.trade import mending, mending_rows, tempering  # noqa: E402
from pastrylab.trade.composition import compositions  # noqa: E402
from pastrylab.trade.water_activity import norrish  # noqa: E402


def in_turn(ours, bare, times=9):
    """Median seconds of two pieces of work, after one call of each that warms up, in turn: a load that comes and goes meets
    both."""
    found = {ours: [], bare: []}
    for turn in range(times + 1):
        for work in found:
            start = time.perf_counter()
            work()
            if turn:
                found[work].append(time.perf_counter() - start)
    return statistics.median(found[ours]), statistics.median(found[bare])


def of_processes(ours, bare):
    """As in_turn, for two pieces of code, each in a process of its own."""

    def process(code):
        subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT, stdout=subprocess.DEVNULL)

    return in_turn(lambda: process(ours), lambda: process(bare))


def importing():
    return of_processes("from pastrylab import Q, tempering", "import pint, pandas")


_OPENED = """from pastrylab import benches
benches.start("02")
benches.tempering.seed_bench()"""
_BARE = """import io
import ipywidgets, pandas, pint
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
figure = Figure(figsize=(7.2, 4.4), dpi=100, layout="constrained")
axes = figure.add_subplot(title="A bowl", xlabel="seed, %", ylabel="temperature")
axes.plot([0, 1], [45, 30], label="bowl")
axes.legend()
FigureCanvasAgg(figure).print_png(io.BytesIO())"""


def opening():
    """From nothing to the first bench drawn, without the kernel, against the same libraries and a figure of one curve."""
    return of_processes(_OPENED, _BARE)


def updating():
    """A control moved, kernel side, against set_data and print_png of the same figure."""
    bench = tempering_bench.seed_bench()
    number = bench.numbers["melted_at"]

    def moved():
        number.put(45.0 if number.value > 45.5 else 46.0)

    figure = bench.figure

    def bare():
        x, y = figure._curve.get_data()
        figure._curve.set_data(x, y)
        figure.canvas.print_png(io.BytesIO())

    return in_turn(moved, bare)


def seeding():
    dice = np.random.default_rng(1)
    batch, hot = dice.uniform(1, 5, 100_000), dice.uniform(44, 50, 100_000)
    plain = tempering.seed_mass.floats
    warm = Q(20.0, "degC"), Q(31.5, "degC")
    return in_turn(
        lambda: tempering.seed_mass(Q(batch, "kg"), Q(hot, "degC"), *warm, bowl_loss=Q(0.0, "kJ")),
        lambda: plain(batch, hot, 20.0, 31.5, "dark", 0.9, 0.0),
    )


def composing():
    table = datasets.ingredients()
    names = ["dark couverture 64 %", "heavy cream 36 %", "butter unsalted", "honey"]
    grams = np.random.default_rng(2).uniform(10, 500, (10_000, len(names)))
    matrix = np.array([list(table[name].values()) for name in names])
    return in_turn(lambda: compositions(names, grams), lambda: grams @ matrix / grams.sum(axis=1, keepdims=True))


def wetting():
    """Water activity of 100,000 compositions in one call against the expression written out in numpy."""
    dice = np.random.default_rng(3)
    water, sucrose, glucose = (dice.uniform(10, 60, 100_000) for _ in range(3))

    def bare():
        w, s, g = water / 18.0153, sucrose / 342.2965, glucose / 180.1559
        total = w + s + g
        return w / total * np.exp(-((np.sqrt(6.47) * s / total + np.sqrt(2.25) * g / total) ** 2))

    def ours():
        return norrish(Q(water, "g"), {"sucrose": Q(sucrose, "g"), "glucose": Q(glucose, "g")})

    assert np.allclose(ours(), bare(), atol=1e-4)
    return in_turn(ours, bare)


def mending_one():
    formula = Formula({"dark couverture 64 %": "300 g", "heavy cream 36 %": "100 g", "butter unsalted": "40 g"})
    targets, move = {"water": (0.18, 0.25), "fat": (0.28, 0.38)}, ["heavy cream 36 %", "butter unsalted", "honey"]
    assert mending.mend(formula, targets, move)
    problems, solve = [], mending_rows.least_distance

    def listening(g, h):
        problems.append((g, h))
        return solve(g, h)

    mending_rows.least_distance = listening
    mending.mend(formula, targets, move)
    mending_rows.least_distance = solve
    return in_turn(lambda: mending.mend(formula, targets, move), lambda: [solve(g, h) for g, h in problems], times=25)


def running():
    """Lesson 02 under nbval against an empty notebook that imports the same packages."""
    with tempfile.TemporaryDirectory() as folder:
        empty = Path(folder, "empty.ipynb")
        code = "import pastrylab.course.benches, pastrylab.trade.tempering, pandas, matplotlib, ipywidgets"
        notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(code)])
        nbformat.write(notebook, empty)

        def nbval(path):
            command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-c", os.devnull, "--nbval-lax"]
            subprocess.run([*command, "--nbval-current-env", str(path)], check=True, cwd=folder, capture_output=True)

        lesson = ROOT / "lessons" / "02-tempering.ipynb"
        return in_turn(lambda: nbval(lesson), lambda: nbval(empty), times=3)


def remembering():
    """Peak memory in MB (Linux) of a process with lesson 02's cells run against one with the same libraries."""
    # Not ru_maxrss: a child starts with its parent's peak there.
    peak = "print([l for l in open('/proc/self/status') if l.startswith('VmHWM')][0].split()[1])"
    libraries = (
        "import pastrylab.course.benches, pandas, ipywidgets, matplotlib.figure, matplotlib.backends.backend_agg\n"
    )
    cells = nbformat.read(ROOT / "lessons" / "02-tempering.ipynb", as_version=4).cells
    lesson = "\n".join(cell.source for cell in cells if cell.cell_type == "code")

    def megabytes(code):
        done = subprocess.run([sys.executable, "-c", code], check=True, cwd=ROOT, capture_output=True, text=True)
        return float(done.stdout.split()[-1]) / 1024

    return megabytes(libraries + lesson + "\n" + peak), megabytes(libraries + peak)


ROWS = (
    ("slider to picture in JupyterLab / interact with a new figure", page.turning, 0.25, "s"),
    ("import of pastrylab's Q and tempering / import pint and pandas", importing, 0.6, "s"),
    ("lesson 02 opened, one bench drawn / its libraries, one figure drawn", opening, 1.3, "s"),
    ("moved control, kernel side / bare set_data and print_png", updating, 0.6, "s"),
    ("seed_mass of 100,000 through the door / plain floats", seeding, 2.5, "s"),
    ("composition of 10,000 formulas / one matrix product", composing, 20, "s"),
    ("water activity of 100,000 in one call / plain numpy", wetting, 2.5, "s"),
    ("mending a formula / its solver on bare arrays", mending_one, 3, "s"),
    ("lesson 02 under nbval / an empty notebook", running, 3, "s"),
    ("memory with lesson 02 run / the same libraries", remembering, 1.15, "MB"),
)


def main():
    python, cores, load = platform.python_version(), os.cpu_count(), os.getloadavg()[0]
    print(f"Python {python}, pint {pint.__version__}, numpy {np.__version__}, {cores} cores, load {load:.1f}\n")
    print("| what / against what | ours | bare | ratio | aim |\n|---|---|---|---|---|")
    for name, work, aim, unit in ROWS:
        found = work()
        if found is None:
            print(f"| {name} | not measured: no browser | | | {aim} |", flush=True)
            continue
        ours, bare = found
        print(f"| {name} | {ours:.3g} {unit} | {bare:.3g} {unit} | {ours / bare:.2f} | {aim} |", flush=True)


if __name__ == "__main__":
    main()
