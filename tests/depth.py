"""Two depths: what a person waits for, and with PASTRYLAB_DEEP=1, as on the server that tests every change, all there is."""

import os

DEEP = bool(os.environ.get("PASTRYLAB_DEEP"))


def depth(quick, deep):
    """How many students, settings or examples a test goes through. The quick ones are among the deep ones: numbers and
    seeds are fixed, nothing is drawn anew from day to day."""
    return deep if DEEP else quick
