"""What the words over a log's columns say: what a column holds, and its unit."""

import re

_IS_C = re.compile(
    r"(?i)℃|[°º˚]\s*c(?![a-z])|(deg|degrees|temp)\.?\s*c(?![a-z])|celsius|centigrade|(?<![a-z])c(?![a-z])"
)
_IS_F = re.compile(r"(?i)℉|[°º˚]\s*f(?![a-z])|(deg|degrees|temp)\.?\s*f(?![a-z])|fahrenheit|(?<![a-z])f(?![a-z])")
_SURE = r"\btemp(eratur(e|es|en)?|s|[cf])?\b|\bdeg|°|º|˚|℃|℉|celsius|fahrenheit"
ROLES = (
    ("note", r"note|remark|comment|event|action|observ|what|\bstep|^\s*mark(er|s)?\s*$"),
    (
        "other",
        r"\bair\b|room|ambient|humid|\brh\b|%|batt|\bset\b|set ?point|\bsv\b|target|serial|\bwater\b|\bbath\b|fridge"
        r"|freezer|cabinet|chamber|outside|outdoor|cold junction|dew|\bmax|\bmin(imum)? *temp|alarm|limit",
    ),
    ("date", r"^\s*(date|day)\s*$"),
    ("index", r"^\s*(no|nr|n°|#|row|index|record|sample|reading no)\.?\s*$"),
    ("time", r"\btime|\bmin|\bsec|hour|clock|elapsed|\bh+:mm|m:ss|^\s*t\s*([(\[]|$)|^\s*[hs]\s*$"),
    ("temperature", rf"{_SURE}|probe|choc|bowl|reading|value|^\s*[cf]\s*$"),
)


def named_unit(text):
    """The unit a text names, "degC" or "degF", or None where it names none or both.

    >>> named_unit("Temp (°F)"), named_unit("probe")
    ('degF', None)
    """
    celsius, fahrenheit = (bool(pattern.search(text.replace("_", " "))) for pattern in (_IS_C, _IS_F))
    return None if celsius == fahrenheit else "degC" if celsius else "degF"


def role(cell):
    """What a column holds by its name: one of the first words in ROLES, or None.

    >>> role("Elapsed time"), role("bowl °C"), role("room"), role("T1")
    ('time', 'temperature', 'other', None)
    """
    cell = cell.replace("_", " ")
    found = next((role for role, words in ROLES if re.search(words, cell, re.IGNORECASE)), None)
    return "temperature" if found is None and named_unit(cell) else found


def is_header(cells):
    """Whether the cells of a row name columns: a temperature, a time or a date among them, none of them long.

    >>> is_header(("minutes", "degC")), is_header(("Larkmoor Teaching Kitchen",))
    (True, False)
    """
    text = [cell.replace("_", " ") for cell in cells if cell]
    sure = any(re.search(_SURE, cell, re.IGNORECASE) or role(cell) in ("time", "date") for cell in text)
    return sure and all(len(cell) <= 60 for cell in text)
