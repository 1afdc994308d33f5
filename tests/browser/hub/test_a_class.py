"""A class on one server, for real: two students and their teacher, from login to verdict, and what each may not see."""

import json
import os
import re
import shutil
import subprocess
import sys
import textwrap
import time
from pathlib import Path

import pytest

from pastrylab.course.catalogue import exercise
from pastrylab.school import exercise_values
from pastrylab.school.engine import case

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]

ROOT = Path(__file__).resolve().parents[3]
TEACHER, PASSWORD, CLASS_TOKEN = "chef", "tempered at 31", "the-word-of-the-tests"
WHICH = "05.highest-reading"


def run_all(page):
    page.locator("#jp-main-statusbar").get_by_text(re.compile(r"Python 3.*\| Idle")).first.wait_for(timeout=90_000)
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    page.get_by_label("Your class number").last.wait_for(timeout=120_000)


def card(page):
    title = exercise(WHICH).title
    return page.locator(".jp-OutputArea-output", has=page.get_by_text(title)).filter(
        has=page.get_by_role("button", name="Check")
    )


def answer(page, text):
    box = card(page).get_by_label(re.compile("Your answer")).first
    box.fill(text)
    box.press("Enter")


def says(page, pattern):
    page.locator(".jp-OutputArea-output").get_by_text(re.compile(pattern)).first.wait_for(timeout=30_000)


def until(found, seconds=30):
    end = time.monotonic() + seconds
    while not (there := found()) and time.monotonic() < end:
        time.sleep(0.2)
    assert there
    return there


@pytest.fixture
def student(enter):
    """Student s17 on lesson 05, all of it run."""
    page = enter("s17", "05-keeping.ipynb")
    run_all(page)
    return page


def answers_of(hub, who):
    path = hub.folder(who) / "lessons" / "my-answers" / "05.jsonl"
    return [json.loads(line) for line in path.read_text("utf-8").splitlines()] if path.is_file() else []


def test_from_login_to_verdict_and_nothing_leaves_the_machine(hub, student):
    says(student, "Your exercises use values drawn for: s17")
    right = case(exercise(WHICH), "s17").answer.split(" (")[0]
    answer(student, right)
    says(student, "^Right")
    (line,) = answers_of(hub, "s17")[-1:]
    assert line["student"] == "s17" and line["answer"] == right
    abroad = [url for url in student.asked if not url.startswith((hub.address, "data:", "blob:"))]
    assert not abroad, "a page asked another address"
    read = hub.run_as(TEACHER, "cat", hub.folder("s17") / "lessons" / "my-answers" / "05.jsonl")
    assert right in read.stdout, read.stderr


def test_new_values_are_in_force_at_once_and_over_a_students_own(hub, student):
    own = hub.folder("s17") / "datasets" / "exercise_values.csv"
    course = hub.course / "datasets" / "exercise_values.csv"
    before, theirs = course.read_text("utf-8"), own.read_text("utf-8")
    changed = before.replace(
        "05.highest-reading,error,0.015,,0.012,0.018,", "05.highest-reading,error,0.02,,0.019,0.021,"
    )
    assert changed != before
    try:
        own.write_text(theirs.replace("02.seed-for-a-bowl,batch,3,kg", "02.seed-for-a-bowl,batch,4,kg"), "utf-8")
        hub.run_as(TEACHER, "cp", hub.give(TEACHER, changed), course, check=True)
        run_all(student)
        says(student, f"exercise values {exercise_values.survey(course).id}")
    finally:
        course.write_text(before, "utf-8")
        own.write_text(theirs, "utf-8")


def test_a_student_sees_and_changes_nobody_elses(hub, student, enter):
    enter("s18")
    state = hub.server / "hub"
    for command in (
        ("ls", hub.folder("s17")),
        ("cat", hub.folder("s17") / "lessons" / "my-answers" / "05.jsonl"),
        ("ls", hub.folders),
        ("ls", hub.home / "at-home" / "s17"),
        ("cat", state / "hub.sqlite"),
        ("cat", state / "cookie_secret"),
        ("touch", hub.course / "datasets" / "exercise_values.csv"),
        ("touch", hub.folders / "s19"),
        ("ls", hub.course / "my-desk"),
        ("mkdir", hub.course / "mine"),
    ):
        refused = hub.run_as("s18", *command)
        assert refused.returncode and "ermission denied" in refused.stderr, (command, refused)
    mine = [path for path in os.listdir("/proc") if path.isdigit() and _owner(path) == hub.ids["s17"]]
    assert mine, "student s17 has a server and a kernel"
    for number in mine:
        assert hub.run_as("s18", "cat", f"/proc/{number}/environ").returncode, "an environment holds a token"


def _owner(number):
    try:
        return os.stat(f"/proc/{number}").st_uid
    except OSError:
        return None


def test_ones_token_opens_no_other_server(hub, student, enter):
    other = enter("s18")
    for path, page in (("s17", other), ("s18", student)):
        found = page.request.get(f"{hub.address}/user/{path}/api/contents/lessons", max_redirects=5)
        assert found.status in (403, 404) or "/hub/" in found.url, (path, found.status, found.url)
        assert "00-start-here" not in found.text()


LISTEN = textwrap.dedent(
    """
    import json, sys, time, zmq
    got, context = 0, zmq.Context()
    socket = context.socket(zmq.SUB)
    socket.setsockopt(zmq.SUBSCRIBE, b"")
    for address in json.loads(sys.argv[1]):
        socket.connect(address)
    end = time.time() + float(sys.argv[2])
    while time.time() < end:
        if socket.poll(200):
            got += any(b"a secret of the kitchen" in part for part in socket.recv_multipart())
    print(got)
    """
)
SPEAK = textwrap.dedent(
    """
    import json, os, sys, time
    from jupyter_client import KernelManager
    kernel = KernelManager(transport=sys.argv[1])
    if sys.argv[1] == "ipc":
        kernel.ip = sys.argv[2] + "/k"
    kernel.start_kernel()
    client = kernel.client()
    client.start_channels()
    client.wait_for_ready(timeout=60)
    number = kernel.provisioner.process.pid
    held = {os.readlink(f"/proc/{number}/fd/{one}") for one in os.listdir(f"/proc/{number}/fd")}
    rows = [line.split() for line in open(f"/proc/{number}/net/tcp").readlines()[1:]]
    ports = [int(row[1][-4:], 16) for row in rows if row[3] == "0A" and f"socket:[{row[9]}]" in held]
    heard_at = f"{kernel.transport}://{kernel.ip}{':' if kernel.transport == 'tcp' else '-'}{kernel.iopub_port}"
    print(json.dumps([heard_at, *(f"tcp://127.0.0.1:{port}" for port in ports)]), flush=True)
    for _ in range(12):
        client.execute("print('a secret of the kitchen')")
        time.sleep(0.5)
    kernel.shutdown_kernel(now=True)
    """
)


@pytest.mark.parametrize(("transport", "overheard"), [("tcp", True), ("ipc", False)])
def test_a_kernel_is_overheard_over_tcp_and_not_over_ipc(hub, tmp_path, transport, overheard):
    """The eavesdropper is proved first: over TCP, as a server has it by default, it hears. Then the way of this hub, at the
    socket and at every port the kernel still holds (one, into which forked processes put what they print)."""
    runtime = hub.home / "at-home" / "s17"
    speaker = subprocess.Popen(
        [
            "nsenter",
            "-t",
            str(hub.process.pid),
            "-m",
            *hub.as_person("s17"),
            sys.executable,
            "-c",
            SPEAK,
            transport,
            str(runtime),
        ],
        stdout=subprocess.PIPE,
        text=True,
        env={"PATH": os.environ["PATH"], "HOME": str(runtime), "JUPYTER_RUNTIME_DIR": str(runtime / "r")},
        cwd="/",
    )
    try:
        addresses = speaker.stdout.readline().strip()
        heard = hub.run_as("s18", sys.executable, "-c", LISTEN, addresses, "4")
        assert (int(heard.stdout or 0) > 0) is overheard, (addresses, heard)
    finally:
        speaker.kill()


def test_kernels_of_this_hub_are_not_to_be_had_over_tcp(hub, student):
    ports = set()
    for number in os.listdir("/proc"):
        if not number.isdigit() or _owner(number) != hub.ids["s17"]:
            continue
        with open(f"/proc/{number}/cmdline", "rb") as line:
            if b"ipykernel" in line.read():
                ports |= _listening(number)
    assert len(ports) <= 1, "more than the port for what forked processes print: the channels of a kernel are five"


def _listening(number):
    sockets = set()
    for handle in os.listdir(f"/proc/{number}/fd"):
        try:
            sockets.add(os.readlink(f"/proc/{number}/fd/{handle}"))
        except OSError:
            continue
    with open(f"/proc/{number}/net/tcp") as table:
        rows = [line.split() for line in table.readlines()[1:]]
    return {row[1] for row in rows if row[3] == "0A" and f"socket:[{row[9]}]" in sockets}


def test_a_killed_kernel_and_a_hub_started_again_lose_no_answer(hub, student, enter):
    answer(student, "0.123")
    kept = until(lambda: [one for one in [answers_of(hub, "s17")] if one and one[-1]["answer"] == "0.123"])[0]
    for number in os.listdir("/proc"):
        if number.isdigit() and _owner(number) == hub.ids["s17"]:
            with open(f"/proc/{number}/cmdline", "rb") as line:
                if b"ipykernel" in line.read():
                    os.kill(int(number), 9)
    hub.stop_hub()
    hub.start()
    again = enter("s17", "05-keeping.ipynb")
    run_all(again)
    assert answers_of(hub, "s17")[: len(kept)] == kept
    right = case(exercise(WHICH), "s17").answer.split(" (")[0]
    answer(again, right)
    says(again, "^Right")
    assert answers_of(hub, "s17")[-1]["answer"] == right


def test_the_teacher_marks_in_place(hub, student):
    answer(student, case(exercise(WHICH), "s17").answer.split(" (")[0])
    says(student, "^Right")
    desk = hub.home / "at-home" / TEACHER
    (desk / "list.csv").write_text("number,section\ns17,A\ns18,A\n", "utf-8")
    try:
        command = ("-m", "pastrylab", "mark", hub.folders, "--class", desk / "list.csv", "--out", desk / "marks")
        done = hub.run_as(TEACHER, "env", f"PASTRYLAB_WORKBOOK={hub.course}", sys.executable, *command)
        assert not done.returncode, done
        book = (desk / "marks" / "gradebook.csv").read_text("utf-8-sig").splitlines()
        row = dict(
            zip(book[0].split(","), next(line for line in book if line.startswith("s17")).split(","), strict=True)
        )
        assert float(row["lesson 05 right"]) >= 1, row
    finally:
        shutil.rmtree(desk / "marks", ignore_errors=True)


def test_a_class_is_started_ahead_with_the_token_and_not_without(hub, tmp_path):
    (tmp_path / "accounts.txt").write_text("s18\nnobody-here\n", "utf-8")

    def run(token):
        environment = {**os.environ, "PASTRYLAB_ADDRESS": hub.address, "PASTRYLAB_CLASS_TOKEN": token}
        script = [sys.executable, str(ROOT / ".hub" / "start_class.py"), str(tmp_path / "accounts.txt")]
        return subprocess.run(script, env=environment, capture_output=True, text=True, timeout=120)

    refused = run("another-word")
    assert refused.returncode == 1 and "s18 refused (403" in refused.stdout, refused
    done = run(CLASS_TOKEN)
    assert re.search("^s18 (starts|is up already)$", done.stdout, re.M), done
    assert re.search("^nobody-here refused", done.stdout, re.M), "no account of this machine"
    assert done.returncode == 1


def test_a_lesson_as_a_page_on_a_telephone(hub, chromium):
    context = chromium.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    try:
        page.goto(f"{hub.address}/hub/login?next=/hub/user-redirect/voila/render/lessons/05-keeping.ipynb")
        page.fill("#username_input", "s18")
        page.fill("#password_input", PASSWORD)
        page.click("#login_submit")
        page.get_by_label("Your class number").last.wait_for(timeout=120_000)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        right = case(exercise(WHICH), "s18").answer.split(" (")[0]
        answer(page, right)
        until(lambda: [one for one in answers_of(hub, "s18") if one["answer"] == right])
    finally:
        context.close()
