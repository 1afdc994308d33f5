"""A tempering bowl's temperature log: read_log takes a file or text, review_log says what it shows and what it cannot."""

from pastrylab.logs.columns import SeveralColumns
from pastrylab.logs.jobs import CHOCOLATE, CREAM
from pastrylab.logs.moment import minutes_into
from pastrylab.logs.reader import log_columns, read_log
from pastrylab.logs.review import CANNOT_TELL, CONSISTENT, METHODS, NOT_CONSISTENT, Review, minutes_between, review_log
from pastrylab.logs.stages import Stage
from pastrylab.logs.times import FORMS

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
