"""Names of things as they are compared: what a cook writes one way and a table another is one name."""

import functools
import unicodedata


@functools.lru_cache(maxsize=4096)
def plain_name(name):
    """A name as names are compared: no case, accents or commas, one space between words and around %.

    >>> plain_name("Crème fraîche, 30%")
    'creme fraiche 30 %'
    """
    bare = "".join(c for c in unicodedata.normalize("NFKD", name.casefold()) if not unicodedata.combining(c))
    return " ".join(bare.replace(",", " ").replace("%", " % ").replace("\u2013", "-").split())
