"""A term of a few students through a browser, two halves with new values between them: every figure as reckoned apart.

By hand for a class of sixty: `python tests/browser/term/typed.py 60`.
"""

import json
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow, pytest.mark.deep]


def test_a_term_through_the_pages(chromium, tmp_path):
    command = [sys.executable, Path(__file__).parent / "term" / "typed.py", "6", "--folder", tmp_path / "term"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr[-3000:]
    found = json.loads(done.stdout)
    assert found["not as reckoned"] == [] and found["flags"] == [], "nothing lost, nothing crossed"
    assert (found["students"], found["in JupyterLab"], found["figures compared"]) == (6, 1, 84)
    assert found["answers typed"] > 20 and found["right"] > 8
