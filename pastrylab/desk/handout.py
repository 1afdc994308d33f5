"""``pastrylab handout``: the workbook as the class is to have it becomes one file, a line to type, and a page to print.

The file is a wheel, put together here: nothing is fetched and nothing need be installed for it.
"""

from __future__ import annotations

import base64
import hashlib
import importlib.metadata
import io
import tomllib
import zipfile
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from pastrylab.course import catalogue
from pastrylab.desk import workbook
from pastrylab.desk.carried import carried
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.page.parts import part
from pastrylab.school import exercise_values

_TRIED = 20  # students; `pastrylab check` tries more
_PACKAGE = Path(__file__).resolve().parents[1]


@dataclass(frozen=True)
class HandOut:
    """A hand-out that was made: its wheel, the page to print, the two lines to type, files of the workbook left out,
    and the faults it went out with."""

    wheel: Path
    page: Path
    values: str
    line: str
    line_on_windows: str
    left_out: tuple[str, ...]
    faults: tuple[str, ...] = ()


def version_of(values_id: str, now: datetime, base: str) -> str:
    """The version of a hand-out: base, date, time of day, and the values' id as a number; it rises with every hand-out.

    Whole numbers alone: a plus sign, the other way to carry an id, does not outlive every upload of a file.
    """
    return f"{base}.{now:%Y%m%d}.{int(f'{now:%H%M%S}')}.{int(values_id, 16)}"


def hand_out(folder, now: datetime | None = None, anyway=False, how="pastrylab handout --anyway") -> HandOut:
    """Make the hand-out of the workbook in force in a folder, made if need be; the values are kept in its folder values.

    now: the time in its version, that of the clock if None. anyway: also where an exercise cannot be set: its page says
    why, the others go on. Else raises StudentError where the values or other sheets are not sound; how: the way to say
    it, named there. Raises StudentError too where a lesson cannot be read, or the folder cannot be written.
    """
    problems = _problems(anyway, how)
    root = files.workbook() or workbook.shipped_root()
    values, now = exercise_values.values(), now or datetime.now()
    taken, left_out = carried(root)
    about = _About.of(root)
    version = version_of(values.id, now, about.base)
    name = f"pastrylab-{version}-py3-none-any.whl"
    folder = Path(folder)
    line = f"python3 -m venv .venv && .venv/bin/python -m pip install ./{name} && .venv/bin/pastrylab open"
    windows = rf"py -3 -m venv .venv; .venv\Scripts\python -m pip install .\{name}; .venv\Scripts\pastrylab open"
    page = part(
        "hand_out",
        name=name,
        day=f"{now:%Y-%m-%d}",
        values=values.id,
        line=line,
        windows=windows,
        python=about.python.removeprefix(">="),
    )
    try:
        workbook.write_whole(folder / name, _wheel(version, about, taken))
        workbook.write_whole(folder / "hand-out.html", str(page).encode())
        for one in exercise_values.of_each_section():
            workbook.write_whole(folder / "values" / f"{one.id}.csv", one.to_csv().encode())
    except OSError as error:
        raise StudentError(
            f"the folder {folder} ({error.strerror or error})", "a folder you may write in", "pastrylab handout"
        ) from None
    return HandOut(folder / name, folder / "hand-out.html", values.id, line, windows, tuple(left_out), tuple(problems))


def _problems(anyway, how):
    """What check says; raised where there is any and nobody said that it may go out all the same."""
    problems = catalogue.check(students=_TRIED)
    if problems and not anyway:
        raise StudentError(
            f"sheets with {len(problems)} fault{'s, the first' * (len(problems) > 1)}: {problems[0].rstrip('.')}",
            "sound ones, or a hand-out all the same: an exercise that cannot be set says so, the others go on",
            how,
        )
    return problems


# --- what goes into it ------------------------------------------------------------------------------------


@dataclass(frozen=True)
class _About:
    """What a wheel says of the package beside its version."""

    base: str
    python: str
    requires: tuple[str, ...]
    script: str
    licence: str

    @classmethod
    def of(cls, root: Path) -> _About:
        if files.is_checkout(root):
            project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
            licence = (root / project["license-files"][0]).read_text(encoding="utf-8")
            script = project["scripts"]["pastrylab"]
            return cls(project["version"], project["requires-python"], tuple(project["dependencies"]), script, licence)
        installed = importlib.metadata.distribution("pastrylab")
        (script,) = [one.value for one in installed.entry_points if one.name == "pastrylab"]
        return cls(
            ".".join(installed.version.split(".")[:3]),
            installed.metadata["Requires-Python"],
            tuple(one for one in installed.requires or () if "extra ==" not in one),
            script,
            installed.read_text("licenses/.licence/LICENSE") or "",
        )


# --- the wheel --------------------------------------------------------------------------------------------


def _wheel(version: str, about: _About, taken: dict[str, bytes]) -> bytes:
    """The bytes of a wheel: the package as it is installed here, with these files as its workbook."""
    holds = {}
    for path in sorted(_PACKAGE.rglob("*")):
        parts = path.relative_to(_PACKAGE).parts
        if path.is_file() and parts[0] != "_workbook" and not any(p == "__pycache__" or p[0] == "." for p in parts):
            holds["/".join(("pastrylab", *parts))] = path.read_bytes()
    holds |= {f"pastrylab/_workbook/{name}": data for name, data in taken.items()}
    info = f"pastrylab-{version}.dist-info"
    metadata = ["Metadata-Version: 2.1", "Name: pastrylab", f"Version: {version}", "License: MIT"]
    metadata += [f"Requires-Python: {about.python}", *(f"Requires-Dist: {one}" for one in about.requires)]
    wheel = ["Wheel-Version: 1.0", "Generator: pastrylab", "Root-Is-Purelib: true", "Tag: py3-none-any"]
    for name, lines in (("METADATA", metadata), ("WHEEL", wheel)):
        holds[f"{info}/{name}"] = ("\n".join(lines) + "\n").encode()
    holds[f"{info}/entry_points.txt"] = f"[console_scripts]\npastrylab = {about.script}\n".encode()
    holds[f"{info}/licenses/.licence/LICENSE"] = about.licence.encode()
    record = [f"{name},sha256={_digest(data)},{len(data)}" for name, data in holds.items()]
    holds[f"{info}/RECORD"] = "\n".join([*record, f"{info}/RECORD,,", ""]).encode()
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        for name, data in holds.items():
            entry = zipfile.ZipInfo(name, (2020, 1, 1, 0, 0, 0))
            entry.external_attr = 0o100644 << 16
            archive.writestr(entry, data, zipfile.ZIP_DEFLATED)
    return packed.getvalue()


def _digest(data: bytes) -> str:
    return base64.urlsafe_b64encode(hashlib.sha256(data).digest()).rstrip(b"=").decode()
