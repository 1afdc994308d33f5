"""A store room's log of temperature and humidity: read_store takes a file or text."""

from pastrylab.logs.jobs import STORE
from pastrylab.logs.store.reader import read_store

__all__ = ["STORE", "read_store"]
