"""The instructor's desk in a browser: a class list and a hand-in are brought, the class is marked, its page opened."""

import io
import shutil
import zipfile

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]

LIST = "number,name,section\n017,An invented name,A\n18,Another invented name,B\n"
LINE = '{"when": "2026-10-02T10:00:00+00:00", "student": "17", "exercise": "05.highest-reading", "answer": "0.8", '


def zipped(line):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("my-answers/05.jsonl", line)
    return out.getvalue()


def test_a_class_is_listed_marked_and_its_page_opened(desk, lab):
    from pastrylab.school import exercise_values

    folder = lab[1] / "my-desk"
    try:
        page = desk.page
        desk.show("instructor-desk.ipynb")
        desk.run("buttons.ClassList()", "buttons.Marking()")
        listed = page.locator(".jp-OutputArea-output", has=page.get_by_role("button", name="Read it again"))
        with page.expect_file_chooser() as chooser:
            listed.get_by_role("button", name="Bring the class list").click()
        chooser.value.set_files({"name": "spring.csv", "mimeType": "text/csv", "buffer": LIST.encode()})
        listed.get_by_text("2 students: 1 in A, 1 in B.").wait_for()
        marking = page.locator(".jp-OutputArea-output", has=page.get_by_role("button", name="Mark it"))
        line = f'{LINE}"values": "{exercise_values.values().id}"}}\n'
        with page.expect_file_chooser() as chooser:
            marking.get_by_role("button", name="Bring what was handed in").click()
        chooser.value.set_files({"name": "17.zip", "mimeType": "application/zip", "buffer": zipped(line)})
        marking.get_by_text("1 file lies in").wait_for()
        marking.get_by_role("button", name="Mark it").click()
        marking.get_by_text("1 hand-ins of 1 students marked").wait_for(timeout=60_000)
        marking.get_by_role("link", name="class.html").click()
        page.frame_locator(".jp-HTMLViewer iframe, iframe").get_by_text("The class").first.wait_for(timeout=30_000)
        assert "017" in (folder / "marks" / "gradebook.csv").read_text("utf-8-sig")
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        page.evaluate(
            "() => { for (const one of [...jupyterapp.shell.widgets('main')]) if (one !== panel) one.close() }"
        )
