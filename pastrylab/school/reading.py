"""What a student typed as an answer: an amount with its noun, a count, a letter in a bracket, a number rounded too far."""

import re

from pastrylab.ground.spellings import NO_NOUN
from pastrylab.ground.units import StudentError, dimension, read_text

LETTERS = "ABCDEFGH"
_CHOSEN = re.compile(
    r"(?:(?:answer|option|it is|it's)\s*:?\s*)?\(?([a-h])(?:[.):]+\s*(.*)|\s*,\s*(.+)|)", re.IGNORECASE
)
_COUNTED = re.compile(r"(.*[0-9½⅓⅔¼¾⅛.,])\s*([^\W\d_][^\d]*)")
_MOST_ROUNDED = 0.25  # of the answer


def read_number(text, asked, own_words=""):
    """A typed answer as Typed; asked: the unit it is asked in, or "" for a plain number.

    The name of what was weighed may follow ("254 g honey"); behind a plain number stand words of the exercise itself
    ("50 boxes"), given as own_words. Raises StudentError.

    >>> typed = read_number("254 g honey", "g")
    >>> f"{typed.number:g} {typed.unit}"
    '254 g'
    >>> f"{read_number('50 boxes', '', 'How many boxes?').number:g}"
    '50'
    """
    if asked:
        return read_text(text, dimension(asked), nouns=True)
    if text.count(":") == 1:
        above, below = (read_text(part) for part in text.split(":"))
        if below.number:
            return type(above)(above.number / below.number, "", above.step / below.number)
    try:
        return read_text(text, nouns=True)
    except StudentError:
        counted = _COUNTED.fullmatch(text.strip())
        known = _stems(own_words) - NO_NOUN
        if counted and _stems(counted[2]) and _stems(counted[2]) <= known:
            return read_text(counted[1])
        raise


def _stems(text):
    """The words of a text, a plural like its singular."""
    words = re.findall(r"[^\W\d_]+", text.casefold())
    return {word[:-1] if word.endswith("s") and not word.endswith("ss") else word for word in words}


def is_letter(text):
    """Whether an answer is a letter alone.

    >>> is_letter(" b "), is_letter("b, the gelatin"), is_letter("5")
    (True, False, False)
    """
    text = str(text).strip()
    return len(text) == 1 and text.isalpha()


def chosen(names, text):
    """Which option a typed answer means, by its place: "C", "(c)", "C) the gelatin", "C, the gelatin", or the
    option's own words.

    names: for each option the ways it may be called. Returns None where it is not clear: no such option, or a letter
    with the words of another.

    >>> chosen([["the couverture"], ["the gelatin"]], "B) the gelatin")
    1
    """
    text = " ".join(str(text).split())
    by_words = _by_words(names, text)
    if by_words is not None:
        return by_words
    found = _CHOSEN.fullmatch(text)
    if not found:
        return None
    place, behind = LETTERS.index(found[1].upper()), found[3]
    meant = _by_words(names, found[2] or behind or "")
    # Behind a comma may stand another letter: "A, B" is no answer, "A, the couverture" is one.
    if place >= len(names) or meant not in ((place,) if behind else (None, place)):
        return None
    return place


def _by_words(names, text):
    plain = _plain(text)
    return next((i for i, called in enumerate(names) if plain and plain in map(_plain, called)), None)


def _plain(text):
    return " ".join(text.split()).casefold().rstrip(".)").removeprefix("the ")


def coarse(typed):
    """The step of a typed number as rounded: of "2100" it may be a hundred.

    >>> f"{coarse(read_text('2100 g')):g}"
    '100'
    """
    step = typed.step
    while step >= 1 and typed.number and typed.number % (10 * step) == 0:
        step *= 10
    return step


def rounded_too_far(number, expected, step):
    """Whether a wrong number is the right one rounded more than its exercise allows; step: that of its rounding.

    >>> rounded_too_far(2100, 2125, step=100)
    True
    """
    off = abs(number - expected)
    return number != 0 and off <= step / 2 * (1 + 1e-9) and off <= _MOST_ROUNDED * abs(expected)
