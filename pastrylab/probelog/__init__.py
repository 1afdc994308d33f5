"""A tempering bowl's temperature log: read_log takes a file or text, review_log says what it shows and what it cannot."""

from pastrylab.probelog.reader import read_log
from pastrylab.probelog.review import (
    CANNOT_TELL,
    CONSISTENT,
    METHODS,
    NOT_CONSISTENT,
    Review,
    minutes_between,
    review_log,
)
from pastrylab.probelog.stages import Stage

__all__ = [
    "CANNOT_TELL",
    "CONSISTENT",
    "METHODS",
    "NOT_CONSISTENT",
    "Review",
    "Stage",
    "minutes_between",
    "read_log",
    "review_log",
]
