"""Lets the tests of this folder import what works by plain arithmetic beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
