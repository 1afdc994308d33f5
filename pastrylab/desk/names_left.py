"""An archive looked through again: whose names are still in a file, as deep as its zips go."""

import io
import zipfile

from pastrylab.ground.tables import decode


def left_in(names, name, data):
    """The numbers of those whose names stand in a file or in its name, in a zip as deep as it goes."""
    found = {*names.left_in(name)}
    for inner, text in _texts_in(data):
        found |= {*names.left_in(inner), *names.left_in(text)}
    return tuple(sorted(found))


def parts_in(names, data):
    """Parts of names that stand in a file, ordinary words among them: a set."""
    return {part for inner, text in _texts_in(data) for part in names.parts_in(f"{inner} {text}")}


def _texts_in(data):
    """[(path within, text)] of a file, of everything in it where it is a zip."""
    if zipfile.is_zipfile(io.BytesIO(data)):
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            return [
                (f"{one}/{inner}", text) for one in packed.namelist() for inner, text in _texts_in(packed.read(one))
            ]
    return [("", decode(data, "")) if len(data) < 2_000_000 else ("", data.decode("utf-8", "replace"))]
