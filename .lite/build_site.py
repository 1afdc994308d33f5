"""The workbook as a folder of static pages: JupyterLite, with Python in the reader's browser. Experimental; see README.md.

    python .lite/build_site.py --runtime PYODIDE --site FOLDER

The lock file of Pyodide says which package lies in which file and what it needs. Written anew here, it names what is in
the site and nothing else: our own wheel and what it needs are fetched when a cell first imports them, from the site.
"""

import argparse
import email
import hashlib
import json
import re
import shutil
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name, parse_wheel_filename

HERE = Path(__file__).resolve().parent
SETTINGS = json.loads((HERE / "site.json").read_text(encoding="utf-8"))
RUNTIME = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
PIP = [sys.executable, "-m", "pip", "--disable-pip-version-check", "-q"]
NOT_A_STUDENTS = "instructor-desk.ipynb"


def run(*command):
    """Whether a command went well; what it says is shown only by the caller's own words."""
    return subprocess.run(command, capture_output=True, text=True).returncode == 0


# --- packages ---------------------------------------------------------------------------------------------------


def needs(wheel, python):
    """The names a wheel requires of a Python of that version in a browser, as its own METADATA says."""
    with zipfile.ZipFile(wheel) as archive:
        (path,) = [name for name in archive.namelist() if re.fullmatch(r"[^/]+\.dist-info/METADATA", name)]
        stated = email.message_from_bytes(archive.read(path)).get_all("Requires-Dist", [])
    there = {"sys_platform": "emscripten", "platform_system": "Emscripten", "platform_machine": "wasm32"}
    there |= {"os_name": "posix", "extra": "", "python_version": python, "python_full_version": f"{python}.0"}
    asked = [Requirement(line) for line in stated]
    return sorted({canonicalize_name(one.name) for one in asked if not one.marker or one.marker.evaluate(there)})


def imported(wheel):
    """The names by which a wheel is imported: its top folders and modules."""
    with zipfile.ZipFile(wheel) as archive:
        tops = {name.split("/")[0] for name in archive.namelist() if re.search(r"\.(py|so)$", name)}
    return sorted({top.split(".")[0] for top in tops if not top.endswith((".data", ".dist-info"))})


def entry(wheel, python, known=None):
    """A package's entry in the lock file: what Pyodide's own entry says of it, if there is one, and this very file."""
    name, version, _, _ = parse_wheel_filename(wheel.name)
    said = known or {"depends": needs(wheel, python), "imports": imported(wheel)}
    digest = hashlib.sha256(wheel.read_bytes()).hexdigest()
    fixed = {"file_name": wheel.name, "install_dir": "site", "package_type": "package", "unvendored_tests": False}
    return {**said, **fixed, "name": name, "version": str(version), "sha256": digest}


def fetched(name, info, known, folder):
    """A package's wheel from the package index, in `folder`: None where there is none for this runtime."""
    place = Path(tempfile.mkdtemp(dir=folder))
    if name in SETTINGS["built_here"]:
        run(*PIP, "wheel", "--no-deps", "-w", place, name)
    else:
        pure = known and known["file_name"].endswith("-none-any.whl")
        wanted = f"{name}=={known['version']}" if pure else name
        python = "".join(info["python"].split(".")[:2])
        kind = ["--platform", f"pyemscripten_{info['abi_version']}_wasm32", "--implementation", "cp"]
        kind += ["--python-version", python, "--abi", f"cp{python}", "--abi", "none"]
        run(*PIP, "download", "--no-deps", "--only-binary", ":all:", *kind, "-d", place, wanted)
    found = [path for path in place.glob("*.whl") if re.search(r"(-none-any|_wasm32)\.whl$", path.name)]
    return found[0] if found else None


def gathered(lock, own_wheel, pyodide):
    """(the lock file for what is in the site, the names that are not): our wheel, the kernel's, and all they need.

    lock: as Pyodide's. pyodide: the folder of the runtime, to which the wheels go; one that lies there already is taken.
    """
    info, known = lock["info"], lock["packages"]
    python = ".".join(info["python"].split(".")[:2])
    shutil.copy(own_wheel, pyodide)
    ours = entry(pyodide / own_wheel.name, python)
    there, missing, open_ = {ours["name"]: ours}, [], [*SETTINGS["kernel"], *ours["depends"]]
    while open_:
        name = canonicalize_name(open_.pop())
        if name in there or name in missing or name in SETTINGS["never"]:
            continue
        listed = known.get(name)
        wheel = pyodide / listed["file_name"] if listed else None
        if not (wheel and wheel.is_file()):
            wheel = fetched(name, info, listed, pyodide.parent)
            wheel = wheel and shutil.copy(wheel, pyodide)
        if not wheel:
            missing.append(name)
            open_ += listed["depends"] if listed else []
            continue
        there[name] = entry(Path(wheel), python, listed)
        open_ += there[name]["depends"]
    for one in there.values():
        one["depends"] = [name for name in map(canonicalize_name, one["depends"]) if name in there]
    return {"info": info, "packages": dict(sorted(there.items()))}, sorted(missing)


# --- the site ---------------------------------------------------------------------------------------------------


def runtime(given, pyodide):
    """Copy Pyodide from its folder, with the wheels that lie in it; return its lock file. SystemExit says what lacks."""
    lacking = [name for name in RUNTIME if not (given / name).is_file()]
    if lacking:
        raise SystemExit(f"{given} is no folder of Pyodide: it lacks {', '.join(lacking)}. See .lite/README.md.")
    lock = json.loads((given / "pyodide-lock.json").read_text(encoding="utf-8"))
    listed = {package["file_name"] for package in lock["packages"].values()}
    pyodide.mkdir(parents=True)
    for path in given.iterdir():
        if path.name in RUNTIME or path.name in listed:
            shutil.copy(path, pyodide)
    return lock


def drop_unnamed(lock, pyodide):
    """Take out of the site the wheels that nothing in it asks for: Pyodide's whole folder is some hundred MB."""
    named = {package["file_name"] for package in lock["packages"].values()}
    for path in pyodide.glob("*.whl"):
        if path.name not in named:
            path.unlink()


def contents(wheel, folder):
    """Lay the lessons and datasets out as our wheel carries them: no answers, no checkpoints; and the first page."""
    carried = "pastrylab/_workbook/"
    with zipfile.ZipFile(wheel) as archive:
        for name in archive.namelist():
            if name.startswith(carried) and not name.endswith(("/", NOT_A_STUDENTS)):
                path = folder / name.removeprefix(carried)
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(archive.read(name))
    for path in (HERE / "first-page").glob("*.ipynb"):
        shutil.copy(path, folder)


def build(given, site):
    """Make the site; return (names in it, names that are not)."""
    with tempfile.TemporaryDirectory(prefix="pastrylab-lite-") as scratch:
        work = Path(scratch)
        lite, pyodide = work / "lite", work / "lite" / "static" / "pyodide"
        lock = runtime(given, pyodide)
        if not run(*PIP, "wheel", "--no-deps", "-w", work, HERE.parent):
            raise SystemExit("pip could not build pastrylab's own wheel: try `python -m pip wheel --no-deps .`")
        (own_wheel,) = work.glob("pastrylab-*.whl")
        lock, missing = gathered(lock, own_wheel, pyodide)
        drop_unnamed(lock, pyodide)
        (pyodide / "pyodide-lock.json").write_text(json.dumps(lock), encoding="utf-8")
        contents(own_wheel, work / "files")
        (lite / "jupyter-lite.json").write_text(json.dumps(SETTINGS["page"]), encoding="utf-8")
        command = [sys.executable, "-m", "jupyterlite_core", "build", "--lite-dir", lite, "--output-dir", work / "site"]
        command += ["--contents", work / "files", "--apps", "lab", "--apps", "notebooks", "--no-sourcemaps"]
        made = subprocess.run(command, cwd=work, capture_output=True, text=True)
        if made.returncode:
            raise SystemExit(made.stdout[-1500:] + made.stderr[-1500:])
        shutil.copytree(work / "site", site, dirs_exist_ok=True)
    return sorted(lock["packages"]), missing


def main(arguments=None):
    asked = argparse.ArgumentParser(description="The workbook as a folder of static pages (experimental).")
    asked.add_argument("--runtime", type=Path, required=True, help="Pyodide's folder, with pyodide.mjs in it")
    asked.add_argument("--site", type=Path, required=True, help="where the site goes: a folder that is not there yet")
    chosen = asked.parse_args(arguments)
    if chosen.site.exists() and any(chosen.site.iterdir()):
        raise SystemExit(f"{chosen.site} is not empty. Name a folder that is not there yet, or delete it yourself.")
    there, missing = build(chosen.runtime.resolve(), chosen.site.resolve())
    size = sum(path.stat().st_size for path in chosen.site.rglob("*") if path.is_file())
    print(f"The site is in {chosen.site}: {size / 1e6:.0f} MB, {len(there)} packages of Python.")
    if missing:
        print(f"Not in it: {', '.join(missing)}. The lessons need them: see 'What is missing' in .lite/README.md.")


if __name__ == "__main__":
    main()
