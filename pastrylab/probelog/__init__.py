"""A tempering bowl's temperature log: read_log takes a file or text, review_log says what it shows and what it cannot."""

from pastrylab.probelog.columns import SeveralColumns
from pastrylab.probelog.jobs import CHOCOLATE, CREAM
from pastrylab.probelog.moment import minutes_into
from pastrylab.probelog.reader import log_columns, read_log
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
from pastrylab.probelog.times import FORMS

__all__ = [
    "CANNOT_TELL",
    "CHOCOLATE",
    "CONSISTENT",
    "CREAM",
    "FORMS",
    "METHODS",
    "NOT_CONSISTENT",
    "Review",
    "SeveralColumns",
    "Stage",
    "log_columns",
    "minutes_between",
    "minutes_into",
    "read_log",
    "review_log",
]
