"""A class on one server without a server: whose sheets are in force, whose number, what a copy is made of."""

import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest

from pastrylab.course import benches
from pastrylab.ground import files
from pastrylab.ground.units import StudentError
from pastrylab.school import answers, exercise_values, own_values, whose

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="a hub runs on Linux")
ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture
def course(tmp_path, monkeypatch):
    """A course folder whose batch of 02.seed-for-a-bowl is 4 kg, and a student's copy where it is 5 kg."""
    for folder, batch in ((tmp_path / "course", 4), (tmp_path / "own", 5)):
        shutil.copytree(ROOT / "datasets", folder / "datasets")
        (folder / "lessons").mkdir()
        shutil.copy(ROOT / "lessons" / "02-tempering.ipynb", folder / "lessons")
        shutil.copy(ROOT / "lessons" / "instructor-desk.ipynb", folder / "lessons")
        sheet = folder / "datasets" / "exercise_values.csv"
        text = sheet.read_text("utf-8").replace("02.seed-for-a-bowl,batch,3,kg", f"02.seed-for-a-bowl,batch,{batch},kg")
        sheet.write_text(text, "utf-8")
    monkeypatch.setenv("PASTRYLAB_WORKBOOK", str(tmp_path / "own"))
    return tmp_path / "course"


def batch():
    return exercise_values.values().of("02.seed-for-a-bowl")["batch"].value


def test_the_classs_sheet_is_in_force_over_ones_own(course, monkeypatch):
    assert batch() == 5 and own_values.by_hand()
    monkeypatch.setenv("PASTRYLAB_COURSE", str(course))
    assert batch() == 4 and not own_values.by_hand(), "an own sheet has no say, so nothing need be taken back"
    sheet = course / "datasets" / "exercise_values.csv"
    sheet.write_text(sheet.read_text("utf-8").replace("batch,4,kg", "batch,4.5,kg"), "utf-8")
    assert batch() == 4.5, "at once"
    (course / "datasets" / "exercise_values.csv").unlink()
    assert batch() == 5, "what the course has not is one's own"


def test_the_account_is_the_number_until_another_is_typed(course, monkeypatch):
    monkeypatch.setenv("JUPYTERHUB_USER", "017")
    assert whose.student() == "", "on a machine of one's own the hub has no say"
    monkeypatch.setenv("PASTRYLAB_COURSE", str(course))
    assert whose.student() == "17"
    assert whose.set_student("18") == "18" and whose.student() == "18"
    whose.set_student("")
    assert whose.student() == "", "the class values, asked for"


def test_the_page_says_where_answers_lie(course, monkeypatch, capsys):
    benches.check_installation()
    assert "instructor can read" not in capsys.readouterr().out
    monkeypatch.setenv("PASTRYLAB_COURSE", str(course))
    benches.check_installation()
    assert "on the class's server, where your instructor can read them" in capsys.readouterr().out
    assert answers.folder().parent.parent.name == "own"


def test_a_copy_is_what_a_hand_out_holds_and_keeps_what_is_the_students(course, tmp_path, monkeypatch):
    from pastrylab.desk import shared

    (course / "datasets" / "class.csv").write_text("number,name\n17,An invented name\n")
    (course / "my-desk").mkdir()
    monkeypatch.setenv("PASTRYLAB_COURSE", str(course))
    monkeypatch.setenv("PASTRYLAB_STUDENTS", str(tmp_path / "students"))
    monkeypatch.setattr(shared, "teaches", lambda: False)
    own = shared.prepare()
    assert own.parent.parent == tmp_path / "students" and (own / "lessons" / "02-tempering.ipynb").is_file()
    there = {path.name for path in own.rglob("*")}
    assert not there & {"class.csv", "my-desk", "instructor-desk.ipynb"}
    (own / "lessons" / "my-answers").mkdir()
    (own / "lessons" / "my-answers" / "02.jsonl").write_text("kept")
    (own / "lessons" / "notes.txt").write_text("mine")
    assert shared.prepare() == own
    assert (own / "lessons" / "my-answers" / "02.jsonl").read_text() == "kept"
    assert (own / "lessons" / "notes.txt").read_text() == "mine"
    monkeypatch.setattr(shared, "teaches", lambda: True)
    assert shared.prepare() == course


def test_in_a_container_the_folder_is_the_one_named_whoever_one_is(course, tmp_path, monkeypatch):
    from pastrylab.desk import shared

    monkeypatch.setenv("PASTRYLAB_COURSE", str(course))
    monkeypatch.setenv("PASTRYLAB_STUDENTS", str(tmp_path / "students"))
    monkeypatch.setenv("PASTRYLAB_OWN", str(tmp_path / "mounted"))
    monkeypatch.setattr(os, "access", lambda *_: False)  # what access(2) says of a read-only mount, to root too
    monkeypatch.setattr(os, "getuid", lambda: 2**31 - 7)  # an account without a name
    own = shared.prepare()
    assert own == tmp_path / "mounted" / "pastrylab-workbook" and (own / "lessons" / "02-tempering.ipynb").is_file()
    assert not (tmp_path / "students").exists()
    monkeypatch.delenv("PASTRYLAB_OWN")
    with pytest.raises(KeyError):
        shared.prepare()


def test_a_course_that_nobody_has_filled_is_refused_and_then_filled(course, tmp_path, monkeypatch):
    from pastrylab.desk import shared

    empty = tmp_path / "new"
    empty.mkdir()
    monkeypatch.setenv("PASTRYLAB_COURSE", str(empty))
    monkeypatch.setenv("PASTRYLAB_OWN", str(tmp_path / "mounted"))
    monkeypatch.setattr(shared, "teaches", lambda: False)
    with pytest.raises(StudentError, match="holds no lessons"):
        shared.prepare()
    assert not (tmp_path / "mounted").exists()
    before = os.umask(0o027)
    try:
        shared.fill_course(empty)
        assert os.umask(0o027) == 0o027, "the mask of the process is as it was"
    finally:
        os.umask(before)
    assert (empty / "lessons" / "00-start-here.ipynb").stat().st_mode & 0o777 == 0o664
    assert shared.prepare().parent == tmp_path / "mounted"


def test_marks_and_class_list_are_closed_to_students(tmp_path, monkeypatch):
    from pastrylab.desk import shared

    monkeypatch.setattr(shared.grp, "getgrnam", lambda _name: SimpleNamespace(gr_gid=os.getgid(), gr_mem=[]))
    monkeypatch.setattr(os, "chown", lambda *_: None)
    shared.lay_ground(tmp_path, "teachers")
    modes = {
        name: (tmp_path / name).stat().st_mode & 0o7777 for name in ("course", "course/my-desk", "students", "hub")
    }
    assert modes == {"course": 0o2775, "course/my-desk": 0o2770, "students": 0o751, "hub": 0o700}


def test_a_student_has_a_folder_and_an_instructor_none(tmp_path, monkeypatch):
    from pastrylab.desk import shared

    groups = {"jupyter-17": 100, "chef": 100, "head": 50}  # head: teachers is their first group
    monkeypatch.setattr(
        shared.pwd, "getpwnam", lambda name: SimpleNamespace(pw_name=name, pw_uid=os.getuid(), pw_gid=groups[name])
    )
    monkeypatch.setattr(shared.grp, "getgrnam", lambda _name: SimpleNamespace(gr_gid=50, gr_mem=["chef"]))
    monkeypatch.setattr(os, "chown", lambda *given: owners.append(given))
    owners = []
    for account in groups:
        shared.room_for(tmp_path, account, "teachers")
    assert [path.name for path in tmp_path.iterdir() if path.name not in ("course", "own")] == ["jupyter-17"]
    assert owners == [(tmp_path / "jupyter-17", os.getuid(), 50)]


def test_a_students_folder_is_closed_and_no_link_is_taken_for_one(tmp_path):
    from pastrylab.desk import shared

    shared.own_folder(tmp_path / "17", os.getuid(), os.getgid())
    assert (tmp_path / "17").stat().st_mode & 0o7777 == 0o2750
    (tmp_path / "18").symlink_to(tmp_path / "17")
    with pytest.raises((StudentError, FileExistsError), match="link|exists"):
        shared.own_folder(tmp_path / "18", os.getuid(), os.getgid())


def test_a_socket_of_a_kernel_has_room_for_its_name(course):
    from pastrylab.desk import shared

    settings = shared.environment(files.workbook())
    try:
        longest = f"{settings['JUPYTER_RUNTIME_DIR']}/kernel-{'0' * 36}-ipc-5"
        assert len(longest) < 100, "a path of a socket ends at 107 characters (unix(7))"
    finally:
        shutil.rmtree(settings["JUPYTER_RUNTIME_DIR"])


def test_a_server_starts_without_the_grammar_nobody_asks_for_and_still_checks_addresses():
    said = (
        "import sys; from pastrylab.desk import served; served.serve('this');"
        "import jsonschema; from jsonschema import FormatChecker;"
        "print('rfc3987_syntax.syntax_helpers' in sys.modules, 'uri' in FormatChecker.checkers,"
        "FormatChecker().conforms('no address', 'uri'))"
    )
    done = subprocess.run([sys.executable, "-c", said], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "False True False", done


def test_fonts_are_listed_once_for_a_class_and_a_list_of_ones_own_stays(course, tmp_path, monkeypatch):
    from pastrylab.desk import shared

    shared.find_fonts(course.parent / shared.FONTS)
    (listed,) = (course.parent / shared.FONTS).glob("fontlist-*.json")
    assert "DejaVu Sans" in listed.read_text("utf-8") and listed.stat().st_mode & 0o004
    for name, value in (("COURSE", course), ("STUDENTS", tmp_path), ("OWN", tmp_path / "one")):
        monkeypatch.setenv(f"PASTRYLAB_{name}", str(value))
    monkeypatch.setattr(shared, "teaches", lambda: False)
    (tmp_path / "one").mkdir()
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    shared.prepare()
    own = tmp_path / "cache" / "matplotlib" / listed.name
    assert own.read_bytes() == listed.read_bytes()
    own.write_text("{}")
    shared.prepare()
    assert own.read_text() == "{}"
