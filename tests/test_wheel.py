"""The wheel, outside a checkout: it carries the workbook, makes a working copy and serves it until it is stopped."""

import json
import os
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request
import zipfile
from pathlib import Path

import pytest

from pastrylab.desk import workbook

pytestmark = pytest.mark.slow
REPOSITORY = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory) -> Path:
    """The package installed from a wheel, in a folder of its own."""
    place = tmp_path_factory.mktemp("wheel")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "-q"]
    build = [*pip, "wheel", "--no-deps", "--no-build-isolation", "-w", place, REPOSITORY]
    subprocess.run(build, check=True, capture_output=True)
    (wheel,) = place.glob("pastrylab-*.whl")
    target = place / "installed"
    subprocess.run([*pip, "install", "--no-deps", "--no-index", "--target", target, wheel], check=True)
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
    assert not [name for name in names if "my-answers" in name or "checkpoint" in name or name.startswith("tests")]
    assert any(name.endswith("licenses/.licence/LICENSE") for name in names)
    ask = [sys.executable, "-P", "-c", "import pastrylab; print(pastrylab.__file__)"]
    setting = {**os.environ, "PYTHONPATH": str(target)}
    where = subprocess.run(ask, cwd=place, env=setting, check=True, capture_output=True, text=True).stdout
    assert Path(where.strip()).is_relative_to(target), "the tests below must not run the checkout's own package"
    return target


def test_the_wheel_carries_every_lesson_and_dataset(installed):
    expected = {name: path.read_bytes() for name, path in workbook.shipped_files(REPOSITORY).items()}
    assert expected
    carried = installed / "pastrylab" / "_workbook"
    assert {name: path.read_bytes() for name, path in workbook.shipped_files(carried).items()} == expected


@pytest.mark.skipif(os.name != "posix", reason="stops JupyterLab by a POSIX signal")
def test_open_makes_a_working_copy_and_serves_it_until_stopped(installed, tmp_path):
    start = tmp_path / "a class's folder"
    start.mkdir()
    setting = {name: value for name, value in os.environ.items() if not name.startswith(("JUPYTER", "PASTRYLAB"))}
    setting |= {"PYTHONPATH": str(installed), "HOME": str(tmp_path), "PYTHONUNBUFFERED": "1"}
    log = tmp_path / "log"
    with open(log, "wb") as stream:
        lab = subprocess.Popen(
            [sys.executable, "-P", "-m", "pastrylab", "open", "--no-browser"],
            cwd=start,
            env=setting,
            stdin=subprocess.DEVNULL,
            stdout=stream,
            stderr=subprocess.STDOUT,
        )
    try:
        # Seconds on a free machine; a minute and more where others keep it busy.
        address, deadline = "", time.monotonic() + 120
        while time.monotonic() < deadline:
            found = [word for word in log.read_text().split() if word.startswith("http") and "token=" in word]
            if found:
                address = found[0]
                break
            assert lab.poll() is None, log.read_text()
            time.sleep(0.1)
        assert "/doc/tree/lessons/00-start-here.ipynb?token=" in address, log.read_text()
        root = start / "pastrylab-workbook"
        shipped = {name: path.read_bytes() for name, path in workbook.shipped_files(REPOSITORY).items()}
        assert {name: path.read_bytes() for name, path in workbook.shipped_files(root).items()} == shipped
        server, token = address.split("/doc/")[0], address.split("token=")[1]
        settings = f"{server}/lab/api/settings/@jupyterlab/apputils-extension:notification?token={token}"
        with urllib.request.urlopen(settings, timeout=60) as answer:
            assert json.load(answer)["schema"]["properties"]["fetchNews"]["default"] == "false"
        # The top of the file list is the workbook itself, and the page needs the token.
        with urllib.request.urlopen(f"{server}/api/contents?content=1&token={token}", timeout=60) as answer:
            listed = {entry["name"] for entry in json.load(answer)["content"]}
        assert listed == {"lessons", "datasets"}
        with pytest.raises(urllib.error.HTTPError):
            urllib.request.urlopen(f"{server}/api/contents", timeout=60)
        lab.send_signal(signal.SIGTERM)
        assert lab.wait(timeout=60) == 0
        assert "Traceback" not in log.read_text()
    finally:
        if lab.poll() is None:
            lab.kill()
