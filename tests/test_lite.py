"""The workbook without a server: the list of packages names what is in the site, and nothing else."""

import hashlib
import importlib.util
import json
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from pastrylab.course.catalogue import FOLDERS

LITE = Path(__file__).resolve().parent.parent / ".lite"
INFO = {"abi_version": "2026_0", "python": "3.14.2"}


@pytest.fixture
def site():
    spec = importlib.util.spec_from_file_location("build_site", LITE / "build_site.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def wheel(folder, name, *requires, files=()):
    path = folder / f"{name}-1.0-py3-none-any.whl"
    folder.mkdir(parents=True, exist_ok=True)
    with zipfile.ZipFile(path, "w") as archive:
        lines = [f"Requires-Dist: {one}" for one in requires]
        archive.writestr(f"{name}-1.0.dist-info/METADATA", "\n".join([f"Name: {name}", *lines, "", "A text."]))
        for file in (f"{name}/__init__.py", *files):
            archive.writestr(file, "")
    return path


def test_what_a_wheel_needs_in_a_browser(site, tmp_path):
    asked = ("Pint>=0.25", "pexpect; sys_platform == 'linux'", "tzdata; sys_platform == 'emscripten'")
    asked += ("rich; extra == 'test'", "tomli; python_version < '3.11'", "typing_extensions; python_version >= '3.9'")
    assert site.needs(wheel(tmp_path, "a", *asked), "3.14") == ["pint", "typing-extensions", "tzdata"]
    assert site.imported(wheel(tmp_path, "b", files=("six.py", "b/text.txt", "c/deep/d.py"))) == ["b", "c", "six"]


def test_the_list_names_what_is_there(site, tmp_path, monkeypatch):
    pyodide = tmp_path / "lite" / "pyodide"
    own = wheel(tmp_path, "pastrylab", "numpy", "Read_It", "ortools", "jupyterlab")
    lies_there = wheel(pyodide, "read_it")
    wheel(pyodide, "nobody_asks")
    monkeypatch.setitem(site.SETTINGS, "kernel", ["micropip"])
    brought = {"micropip": wheel(tmp_path / "index", "micropip", "numpy")}
    monkeypatch.setattr(site, "fetched", lambda name, *_: brought.get(name))
    known = {"read-it": {"name": "read-it", "file_name": lies_there.name, "depends": ["numpy"], "imports": ["readit"]}}
    known["numpy"] = {"name": "numpy", "file_name": "numpy-2-cp314.whl", "depends": [], "imports": ["numpy"]}
    lock, missing = site.gathered({"info": INFO, "packages": known}, own, pyodide)
    site.drop_unnamed(lock, pyodide)
    assert missing == ["numpy"]
    packages = lock["packages"]
    assert {path.name for path in pyodide.iterdir()} == {package["file_name"] for package in packages.values()}
    assert {name: package["depends"] for name, package in packages.items()} == {
        "micropip": [],
        "pastrylab": ["read-it"],
        "read-it": [],
    }
    assert packages["read-it"]["imports"] == ["readit"]  # as Pyodide's own list says, not by the wheel's folders
    assert packages["read-it"]["sha256"] == hashlib.sha256(lies_there.read_bytes()).hexdigest()


def test_a_site_carries_no_answers_and_not_the_instructors_page(site, tmp_path):
    carried = [f"pastrylab/_workbook/{name}" for name in ("lessons/02-a.ipynb", "lessons/instructor-desk.ipynb")]
    site.contents(wheel(tmp_path, "pastrylab", files=carried), tmp_path / "files")
    found = {path.relative_to(tmp_path / "files").as_posix() for path in (tmp_path / "files").rglob("*.ipynb")}
    assert found == {"lessons/02-a.ipynb", "try-this-browser.ipynb"}


def test_a_folder_that_is_no_runtime_and_one_that_is_full_are_refused(site, tmp_path):
    with pytest.raises(SystemExit, match="lacks pyodide.mjs"):
        site.main(["--runtime", str(tmp_path), "--site", str(tmp_path / "new")])
    (tmp_path / "mine.txt").write_text("mine")
    with pytest.raises(SystemExit, match="not empty"):
        site.main(["--runtime", str(tmp_path), "--site", str(tmp_path)])
    assert (tmp_path / "mine.txt").read_text() == "mine"


def test_the_first_page_is_short_and_saved_without_output():
    page = json.loads((LITE / "first-page" / "try-this-browser.ipynb").read_text(encoding="utf-8"))
    cells = [cell for cell in page["cells"] if cell["cell_type"] == "code"]
    assert len(cells) == 5
    for cell in cells:
        lines = "".join(cell["source"]).split("\n")
        assert len(lines) <= 12 and max(map(len, lines)) <= 75 and lines[0].startswith("# ")
        assert cell["outputs"] == [] and cell["metadata"] == {"jupyter": {"source_hidden": True}}


def loaded_without(missing, modules):
    """Which of the package's modules can be imported where some packages are not there, tried in a Python of their own."""
    code = """
import importlib, json, sys
missing, modules = json.loads(sys.argv[1])
sys.modules |= dict.fromkeys(missing)  # an import of it fails
def loads(name):
    try:
        importlib.import_module(f"pastrylab.{name}")
    except ModuleNotFoundError:
        return False
    return True
print(json.dumps([name for name in modules if loads(name)]))
"""
    asked = json.dumps([list(missing), list(modules)])
    done = subprocess.run([sys.executable, "-c", code, asked], capture_output=True, text=True, check=True)
    return set(json.loads(done.stdout))


def test_what_the_page_says_of_packages_that_are_missing():
    page = (LITE / "README.md").read_text("utf-8")
    missing = re.search(r"Not in it: ([^.]*)\.", page)[1].replace("pillow", "PIL").split(", ")
    there, not_there = page.partition("Without them")[2].split("No bench")
    handful = re.findall(r"`([a-z_.]+)`", there)
    assert len(handful) == 4 and "units begin with numpy" in " ".join(not_there.split())
    beyond = ["ground.units", "page.bench", "course.catalogue"]
    assert loaded_without(missing, [*handful, *beyond]) == set(handful)


@pytest.mark.deep
def test_other_lessons_load_without_the_solver():
    lessons = [f"course.{folder}.benches" for number, folder in FOLDERS.items() if number != "09"]
    assert loaded_without(["ortools"], [*lessons, "trade.planning.solving"]) == set(lessons)
