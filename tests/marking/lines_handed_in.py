"""A class of invented hand-ins: lines as the lessons write them, and what they are worth worked out apart."""

import hashlib
import io
import json
import zipfile

from pastrylab.school import exercise_values

HONEY = "01.a-cup-of-honey"
# NIST Handbook 44, appendix C: a US cup; USDA SR28, NDB 19296: honey weighs 339 g a cup, 1.4329 g/mL.
GRAMS_A_CUP = 236.5882 * 1.4329


def cups(student, low=0.5, step=0.25, steps=6, value=0.75):
    """What a student is asked with, by the published rule."""
    if not student:
        return value
    digest = hashlib.sha256(f"{HONEY}|cups|{student}".encode()).hexdigest()
    return low + int(digest[:16], 16) % (steps + 1) * step


def right(student, **drawn):
    return f"{cups(student, **drawn) * GRAMS_A_CUP:.1f} g"


def line(student, answer, when="2026-10-05T10:00:00+00:00", exercise=HONEY, values=None, **more):
    values = values or exercise_values.values().id
    said = {"when": when, "student": student, "exercise": exercise, "answer": answer, "values": values, **more}
    return json.dumps(said, ensure_ascii=False)


def opened(student, when):
    return line(student, "", when, did="opened the worked solution")


def zipped(files):
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return packed.getvalue()
