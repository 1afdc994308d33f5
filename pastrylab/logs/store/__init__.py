"""A store room's log of temperature and humidity: read_store takes a file or text, review_store says what it shows; own_warming takes the log
of a cold tray."""

from pastrylab.ground.careful import CANNOT_TELL
from pastrylab.logs.halving import own_warming
from pastrylab.logs.jobs import STORE
from pastrylab.logs.store.reader import read_store
from pastrylab.logs.store.review import BEYOND, WITHIN, StoreReview, review_store
from pastrylab.logs.store.said import CANNOT_SHOW

__all__ = [
    "BEYOND",
    "CANNOT_SHOW",
    "CANNOT_TELL",
    "STORE",
    "WITHIN",
    "StoreReview",
    "own_warming",
    "read_store",
    "review_store",
]
