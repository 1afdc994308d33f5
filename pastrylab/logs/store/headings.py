"""What the words over a store room's columns say: temperature of the air or of a surface, humidity, or something else."""

import re

from pastrylab.logs.headings import named_unit, role

AIR, SURFACE, HUMIDITY, DEW = "temperature", "surface", "humidity", "dew point"
TEMPERATURES = (AIR, SURFACE)
_NEVER = r"batt|signal|alarm|limit|set ?point|\bset\b|target|outside|outdoor|\bavg\b|average|\bmean\b|heat index|feels|comfort"
_EXTREME = r"\bmax(imum)?\b|\bmin(imum)? *(temp|rh\b|hum)|\b(lowest|highest)\b|\bmin\b *$"
_OTHER_WATER = (
    r"absolute|\babs\b|g\s*/\s*(m|kg)|mixing|grain|vapou?r|\bvpd\b|specific|pressure|enthalp|deficit|wet.?bulb|moisture"
)
_DEW = r"\bdew|frost ?point|taupunkt|\bdp\b|\btd\b"
_HUMIDITY = r"hum(id|i\b|\b)|\br\.?\s?h\b|feucht|\bum[ei]d|\brel\b|hygro|%"
_SURFACE = (
    r"shel(f|ves)|surface|\bwall|\btray|choc|couverture|product|\bfloor|\brack|\bslab|bonbon|window|coldest|\bcold spot"
)
_PLACE = (
    r"store|room|\bair\b|ambient|cellar|cupboard|cabinet|fridge|refrigerator|freezer|chamber|inside|indoor|internal"
)
_TELLS_PERCENT = r"%|\br\.?\s?h\b|\brel(ative)?\b|percent"


def kind(cell):
    """What a column of a store-room log holds by its name: AIR, SURFACE, HUMIDITY or DEW; "extreme", "water", "other",
    "note", "date", "index" or "time"; None where the name does not tell.

    >>> kind("shelf °C"), kind("rel. humidity"), kind("Dew point (°C)"), kind("g/m³")
    ('surface', 'humidity', 'dew point', 'water')
    """
    text, found = cell.replace("_", " "), role(cell)
    words = (("other", _NEVER), ("extreme", _EXTREME), ("water", _OTHER_WATER), (DEW, _DEW))
    for name, pattern in words:
        if re.search(pattern, text, re.IGNORECASE):
            return name
    if found == "note" or found in ("date", "index", "time") and named_unit(text) is None:
        return found
    if re.search(_HUMIDITY, text, re.IGNORECASE):
        return HUMIDITY
    if re.search(_SURFACE, text, re.IGNORECASE):
        return SURFACE
    if found in ("temperature", "time") or re.search(_PLACE, text, re.IGNORECASE):
        return AIR
    return found


def tells_percent(cell):
    """Whether a name says that its humidity is relative, or in percent.

    >>> tells_percent("RH"), tells_percent("humidity")
    (True, False)
    """
    return bool(re.search(_TELLS_PERCENT, cell.replace("_", " "), re.IGNORECASE))


def stem(cell):
    """A name without its quantity, unit and marks: what the columns of one sensor share.

    >>> stem("Temp 2 (°C)"), stem("RH 2 (%)"), stem("shelf humidity")
    ('2', '2', 'shelf')
    """
    text = re.sub(r"\([^)]*\)|\[[^\]]*\]", " ", cell.replace("_", " ").casefold())
    text = re.sub(
        r"temp(erature)?s?|rel(ative)?\b\.?|hum(idity|id|i)?\b|r\.?h\.?(?![a-z])|(?<![a-z])[tchf](?![a-z])", " ", text
    )
    text = re.sub(r"deg\w*|celsius|fahrenheit|dew ?point|[°º%.,:/\-]", " ", text)
    return " ".join(text.split())
