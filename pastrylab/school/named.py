"""A student, a class number, a group and a section as they count, however they are written."""

import functools
import re
import unicodedata

_BETWEEN = re.compile(r"\s*(?:,(?=\s)|[;&+]|\band\b)\s*")  # several numbers
_OF_A_GROUP = re.compile(r"[\w./-]*\d[\w./-]*")  # 17, b-12; a name has no digits
_BEFORE_A_NUMBER = re.compile(r"(?:number|no|nr|n°|#)\s*[.:]?\s*(?=\d)")


def student_named(student):
    """A student's name or class number as it counts for the draw: NFC, lower case, single spaces.

    >>> student_named("  Ana  MARIA ")
    'ana maria'
    """
    return " ".join(unicodedata.normalize("NFC", str(student or "")).casefold().split())


@functools.lru_cache(maxsize=20_000)  # asked for every line of a class
def number_named(text):
    """A class number as it counts, however it is written: "017", "17.", "No. 17" and "#17" are 17. A str.

    Several are a group: "23 & 017" is "17 and 23", "B-12, B-13" too. What is no number is a name and comes back as it counts for the draw.

    >>> [number_named(text) for text in ("017", " 17. ", "No. 17", "23 & 017", "Ana  MARIA")]
    ['17', '17', '17', '17 and 23', 'ana maria']
    """
    plain = student_named(_seen(unicodedata.normalize("NFKC", str(text or ""))))
    several = parts(plain.replace("numbers ", "", 1))
    if len(several) > 1 and all(map(_OF_A_GROUP.fullmatch, several)):
        return " and ".join(sorted(set(several), key=lambda one: (len(one), one)))
    return _one(plain)


def _seen(text):
    """Without the signs that a page or a printed sheet leaves in what is copied from it, and nobody sees."""
    return text if text.isascii() else "".join(sign for sign in text if unicodedata.category(sign) != "Cf")


def parts(text):
    """What stands between the commas, semicolons, plus signs and ands of a text, numbers among them as they count.

    >>> parts("017, b-3 & Ana")
    ('17', 'b-3', 'Ana')
    """
    return tuple(_one(part) for part in _BETWEEN.split(text) if part)


def members(who):
    """The numbers of a group, each as it counts; of one student that one alone, of nobody none.

    >>> members("17 and 23"), members("17"), members("")
    (('17', '23'), ('17',), ())
    """
    several = tuple(who.split(" and "))
    return several if all(map(_OF_A_GROUP.fullmatch, several)) else (who,) * bool(who)


def _one(plain):
    found = re.fullmatch(r"(\d+)(?:\.0*)?", _BEFORE_A_NUMBER.sub("", plain, count=1))
    return ("".join(str(unicodedata.digit(one)) for one in found[1]).lstrip("0") or "0") if found else plain


def section_named(text):
    """A section as it counts: "A", " a " and "Section A" are the same one. "" for none.

    >>> section_named("Section  A"), section_named("a ")
    ('a', 'a')
    """
    plain = student_named(unicodedata.normalize("NFKC", str(text or "")))
    return re.sub("^(?:section )+", "", plain)
