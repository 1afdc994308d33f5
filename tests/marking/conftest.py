"""Its plain lines on the path, and a folder to hand in to."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parent))


@pytest.fixture
def hand_in(tmp_path):
    """hand_in(path, *lines): a file of lines below the folder `hand_in.folder`."""

    def put(path, *lines):
        target = tmp_path / "hand-ins" / path
        target.parent.mkdir(parents=True, exist_ok=True)
        content = lines[0] if lines and isinstance(lines[0], bytes) else "".join(f"{one}\n" for one in lines).encode()
        target.write_bytes(content)
        return target

    put.folder = tmp_path / "hand-ins"
    put.folder.mkdir()
    return put
