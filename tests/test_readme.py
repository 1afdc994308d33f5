"""README's commands: there, one line each, the same in CI, and mirrored for Windows."""

import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
PINNED = re.compile(r'[a-z0-9-]+==[^\s;]+( ; python_version (==|>=) "3\.\d+")?')


def command(marker: str) -> str:
    """The text between a marker comment and the next end comment, without the fences."""
    block = re.search(rf"^<!-- {marker} -->\n```\w+\n(.*?)\n```\n<!-- end -->$", README, re.M | re.S)
    assert block, f"README.md has no commands marked {marker!r}"
    return block.group(1)


def for_windows(line: str) -> str:
    """A POSIX command as PowerShell 5.1 takes it, which has no &&."""
    for here, there in (("python3 ", "py -3 "), (" && ", "; "), (".venv/bin/", ".venv\\Scripts\\")):
        line = line.replace(here, there)
    return line.replace(".constraints/", ".constraints\\")


@pytest.mark.parametrize("marker", ["open", "test"])
def test_each_command_is_one_complete_line(marker):
    line = command(marker)
    assert "\n" not in line
    steps = line.split(" && ")
    assert steps[0] == "python3 -m venv .venv", "nothing but Python may be needed before"
    assert steps[1].startswith(".venv/bin/python -m pip install -c .constraints/tested.txt -e ")
    assert len(steps) == 3 and steps[2].startswith(".venv/bin/")


def test_the_commands_do_what_the_page_says():
    assert command("open").endswith("-e . && .venv/bin/pastrylab open")
    assert command("test").endswith('-e ".[test]" && .venv/bin/python -m pytest')
    scripts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["scripts"]
    assert set(scripts) == {"pastrylab"}


@pytest.mark.parametrize("marker", ["open", "test"])
def test_the_windows_form_mirrors_it_and_says_that_it_was_not_run(marker):
    assert command(f"{marker} on Windows") == for_windows(command(marker))
    before = README.split(f"<!-- {marker} on Windows -->")[0].rstrip().splitlines()[-1]
    assert "written, not run" in before


@pytest.mark.skipif(shutil.which("bash") is None, reason="CI's script is for bash")
@pytest.mark.parametrize("marker", ["test", "wheels", "room"])
def test_ci_runs_the_commands_of_the_readme(marker):
    shown = ["bash", ROOT / ".ci" / "run", "--print", *([] if marker == "test" else [marker])]
    done = subprocess.run(shown, capture_output=True, text=True, check=True)
    assert done.stdout == command(marker) + "\n"


def test_what_is_carried_to_a_room_is_what_the_room_installs_from():
    filling, installing = command("wheels"), command("room")
    assert filling.startswith(".venv/bin/python -m pip wheel -c .constraints/tested.txt -w ") and filling.endswith(" .")
    folder = filling.split()[-2]
    name = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["name"]
    assert installing.endswith(f"pip install --no-index --find-links {folder} {name}")
    assert "\n" not in filling + installing
    assert f"{folder}/" in (ROOT / ".gitignore").read_text(encoding="utf-8").splitlines()


def test_the_readme_opens_with_the_job_then_the_commands():
    title, first, *_ = README.split("\n\n")
    assert title == "# pastrylab"
    assert not first.startswith(("#", "<", "```", "|", "-"))
    assert README.index("<!-- open -->") < README.index("<!-- test -->")


def test_links_and_folders_named_in_the_readme_exist():
    for target in re.findall(r"\]\((?!http)([^)#]+)\)", README):
        assert (ROOT / target).exists(), target
    for folder in re.findall(r"`((?:lessons|datasets|pastrylab)/[\w./-]*)`", README):
        if "my-answers" not in folder:
            assert (ROOT / folder).exists(), folder


def test_every_tested_version_is_pinned_once_for_each_python():
    lines = (ROOT / ".constraints" / "tested.txt").read_text(encoding="utf-8").splitlines()
    lines = [line for line in lines if not line.startswith("#")]
    for line in lines:
        assert PINNED.fullmatch(line), line
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    wanted = project["dependencies"] + project["optional-dependencies"]["test"]
    names = [line.split("==")[0] for line in lines]
    for requirement in wanted:
        name = re.split(r"[><=\[ ;]", requirement)[0].lower()
        assert name in names, f"{name} is required but not in the tested versions: run .ci/pin"
    plain = [line.split("==")[0] for line in lines if ";" not in line]
    assert len(plain) == len(set(plain))
    assert not set(plain) & {line.split("==")[0] for line in lines if ";" in line}
