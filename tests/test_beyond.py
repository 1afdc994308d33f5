"""Beyond one machine: what can be said of those files without the machines they are for."""

import re
from pathlib import Path
from types import SimpleNamespace

import pytest
import yaml

ROOT = Path(__file__).resolve().parents[1]
BEYOND = ROOT / ".hub" / "beyond"
KUBERNETES = BEYOND / "kubernetes"
IMAGE = (KUBERNETES / "Dockerfile").read_text("utf-8")
VALUES = yaml.safe_load((KUBERNETES / "values.yaml").read_text("utf-8"))
FILES = [path for path in BEYOND.rglob("*") if path.is_file() and "__pycache__" not in path.parts]


def text(path):
    return path.read_text("utf-8")


def mounts(name, *groups):
    """What a server gets, by where it lies."""
    names = {"c": SimpleNamespace(KubeSpawner=SimpleNamespace())}
    for code in VALUES["hub"]["extraConfig"].values():
        exec(code, names)
    user = SimpleNamespace(name=name, groups=[SimpleNamespace(name=group) for group in groups])
    spawner = SimpleNamespace(user=user, volume_mounts="what an earlier start left")
    names["c"].KubeSpawner.pre_spawn_hook(spawner)
    return {one["mountPath"]: one for one in spawner.volume_mounts}


def test_a_students_server_sees_one_folder_of_its_own_and_two_to_read():
    seen = mounts("s17")
    assert {where for where, one in seen.items() if not one.get("readOnly")} == {"/srv/pastrylab/own"}
    assert seen["/srv/pastrylab/own"]["subPath"] == "{username}", "the spawner's own, safe for any name"
    assert sorted(one["subPath"] for one in seen.values() if one["name"] == "course") == ["datasets", "lessons"]
    assert mounts("s17", "another group") == seen


def test_an_instructors_server_sees_all_and_writes_in_the_course_alone():
    seen = mounts("chef", "teachers")
    assert {where for where, one in seen.items() if not one.get("readOnly")} == {"/srv/pastrylab/course"}
    assert set(seen) == {"/srv/pastrylab/course", "/srv/pastrylab/students"}
    assert "chef" in VALUES["hub"]["config"]["JupyterHub"]["load_groups"]["teachers"]["users"]


def test_the_volumes_that_are_mounted_are_asked_for():
    claims = {one["metadata"]["name"] for one in yaml.safe_load_all(text(KUBERNETES / "volumes.yaml"))}
    volumes = VALUES["singleuser"]["storage"]["extraVolumes"].values()
    assert {one["persistentVolumeClaim"]["claimName"] for one in volumes} == claims
    assert {one["name"] for one in volumes} == {one["name"] for one in [*mounts("s17").values()]}


def test_the_image_copies_what_there_is_and_starts_what_it_copied():
    copied = [line.split()[1:] for line in IMAGE.splitlines() if line.startswith("COPY ")]
    sources = [source for *many, _where in copied for source in many]
    assert sources and all((ROOT / source).exists() for source in sources)
    command = VALUES["singleuser"]["cmd"]
    started = Path(command[-1])
    assert started.name in {Path(source).name for source in sources} and f"{started.parent}/" in {w for *_, w in copied}
    assert f'"{started}"' in IMAGE, "without the hub's word it starts the same"
    beside = {Path(source).name for *many, where in copied if where == f"{started.parent}/" for source in many}
    assert {"start_one.py", "server_config.py"} <= beside, "what the script starts lies beside it"


def test_every_setting_of_ours_is_one_the_package_reads():
    read = "".join(text(path) for path in (ROOT / "pastrylab").rglob("*.py"))
    extra = VALUES["singleuser"]["extraEnv"]
    named = dict(re.findall(r"(PASTRYLAB_\w+)=(\S+)", IMAGE))
    assert named == extra, "the image and the chart say the same"
    for path in FILES:
        for name in re.findall(r"PASTRYLAB_\w+", text(path)):
            assert f'"{name}"' in read, f"{path.name} sets {name}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_each_file_says_that_it_was_not_run_and_where_it_was_read(path):
    page = text(BEYOND / "README.md")
    listed = set(re.findall(r"^(\d+)\. ", page.partition("## Read in")[2], re.MULTILINE))
    if path.name != "as_root.py":  # of this project alone; its parts are tested
        assert "written, not run" in " ".join(text(path)[:400].lower().split())
    assert set(re.findall(r"\[(\d+)\]", text(path))) <= listed
    every = "".join(text(one).partition("## Read in")[0] for one in FILES)
    assert all(f"[{number}]" in every for number in listed), "no page is listed that nothing was read in"


def test_the_table_of_sizes_adds_up():
    """Measured: 182 MiB and 4.0 CPU s a student, hub 110, proxy 55; on Kubernetes what is reserved. A core works 60 s a minute."""
    rows = re.findall(r"^\| (\d+) \| (.+?) \| ([\d.]+) GiB \| (\d+) \|$", text(BEYOND / "README.md"), re.MULTILINE)
    assert len(rows) == 5
    reserved = VALUES["singleuser"]["memory"]["guarantee"], VALUES["hub"]["resources"]["requests"]["memory"]
    assert reserved == ("256M", "256Mi") and VALUES["proxy"]["chp"]["resources"]["requests"]["memory"] == "128Mi"
    for students, where, memory, cores in rows:
        each, hub, proxy = (182, 110, 55) if where == "one machine" else (256, 256, 128)
        assert abs(float(memory) - (int(students) * each + hub + proxy) / 1024) < 0.051
        assert int(cores) - 1 < int(students) * 4.0 / 60 <= int(cores)
