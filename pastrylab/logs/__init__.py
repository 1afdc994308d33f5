"""A tempering bowl's temperature log: read_log takes a file or text, review_log says what it shows and what it cannot."""

from pastrylab.logs.bowl import METHODS
from pastrylab.logs.jobs import CHOCOLATE, CREAM
from pastrylab.logs.moment import minutes_into
from pastrylab.logs.reader import decoded, read_log
from pastrylab.logs.review import CANNOT_TELL, CONSISTENT, NOT_CONSISTENT, Review, review_log
from pastrylab.logs.series import minutes_between
from pastrylab.logs.times import FORMS
from pastrylab.logs.vessel import SeveralColumns

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
    "decoded",
    "minutes_between",
    "minutes_into",
    "read_log",
    "review_log",
]
