"""What is known of a kind of chocolate: its bands, its heats, and how warm its crystals stand.

Heat capacity 1.59 kJ/(kg K) between 15 and 40 degC and latent heat 46 J/g (dark) or 44 J/g (milk): Beckett (ed.),
Industrial Chocolate Manufacture and Use, 4th ed. 2009, Useful Physical Constants, pp. 667-668. Above 40 degC the same
table gives 1.67: used nowhere here, it moves the heat of a melt-out by half a per cent. No figure for white was found:
milk's latent heat. The same table gives cocoa butter 157 J/g, so its dark chocolate holds about 29 % of it; a couverture
holds more. Where a couverture of ingredients.csv is named as the kind, its cocoa butter sets the latent heat; milk fat,
mostly melted already at room temperature, is left out.
"""

from pastrylab.ground import datasets
from pastrylab.ground.constants import STAND_TO
from pastrylab.ground.files import looked_up
from pastrylab.ground.names import plain_name
from pastrylab.ground.units import Q, StudentError
from pastrylab.trade.couvertures import own_couverture, own_couvertures
from pastrylab.trade.pantry import facts, ingredient_name, ingredients, own_ingredients

KINDS = tuple(STAND_TO)
TEMPER_LOST = STAND_TO["dark"][1]  # degC
SPECIFIC_HEAT = 1.59  # kJ/(kg K)
LATENT_HEAT = {"dark": 46.0, "milk": 44.0, "white": 44.0}  # kJ/kg
COCOA_BUTTER_LATENT = 157.0  # kJ/kg, the same table
# Shares by which a chocolate of unknown kind is told; our own judgement. Of starch and fibre white couverture holds at
# most 0.2 % here, milk 1.5 to 4.4 %, dark 7 % and more; 2.5 % of fat-free cocoa, the least in milk chocolate by Directive
# 2000/36/EC, brings about 1.2 %. Of lactose milk holds 8 to 11 %, and the 12 % of milk solids below which the law of the US
# still says sweet chocolate (21 CFR 163.123) bring 4 to 6 %; dark here at most 1.7 %.
_WHITE_BELOW, _BROWN_ABOVE = 0.006, 0.01
_MILK_ABOVE, _DARK_BELOW = 0.04, 0.025


def band_floats(kind):
    """((melt low, high), (cool low, high), (work low, high)) in degC, plain floats, for "dark", "milk" or "white".

    Source: datasets/chocolate_bands.csv, rows "in use" (McGee 2004). For a couverture of one's own
    (my-kitchen/couvertures.csv) its supplier's bands. Raises StudentError for another kind.

    >>> band_floats("dark")
    ((45.0, 50.0), (28.0, 29.0), (31.0, 32.0))
    """
    return _bands(kind, "in use")


def wide_band_floats(kind):
    """As band_floats, but each band spans all textbooks and common practice in chocolate_bands.csv; one's own couverture
    keeps its supplier's bands.

    >>> wide_band_floats("dark")
    ((44.4, 55.0), (27.0, 29.0), (31.0, 32.4))
    """
    return _bands(kind, None)


def band(kind):
    """Melt-out, cooling and working band of a kind of chocolate: three pairs (low, high) of temperature readings.

    Source: McGee, On Food and Cooking, 2004; for white the span of two textbooks. Raises StudentError for another kind.

    >>> from pastrylab import both
    >>> [both(end) for end in band("milk")[2]]
    ['30 °C (86 °F)', '31 °C (87.8 °F)']
    """
    return tuple((Q(low, "degC"), Q(high, "degC")) for low, high in band_floats(kind))


def _bands(kind, origin):
    mine = own_couverture(kind)
    if mine:
        return mine.bands
    sound, name = datasets.sound_bands(), kind_named(kind)
    key = id(sound), name, origin  # asked at every move of a slider: looked for once a file
    if key not in _spans:
        _spans[key] = sound, _span(sound, name, origin)  # the sheet is kept, so that its id is not given to another
    return _spans[key][1]


def _span(sound, name, origin):
    """The three bands of a kind. A row at fault that may be one of them stops it: a span without it would be another."""
    for cells, fault in sound.faults:
        if cells.get("kind") not in {*KINDS} - {name} and (origin is None or cells.get("origin", origin) == origin):
            raise fault
    rows = sound.sheet.where(kind=name) if origin is None else sound.sheet.where(kind=name, origin=origin)
    stages = {stage: rows.where(stage=stage) for stage in ("melt", "cool", "work")}
    for stage, found in stages.items():
        if not len(found):
            given = f"chocolate_bands.csv without a row for {name}, {stage}{f', {origin}' if origin else ''}"
            raise StudentError(given, "a row for each of melt, cool and work", f"{name},{stage},31,32,in use,source")
    return tuple((min(found["low"]), max(found["high"])) for found in stages.values())


_spans = {}


def kind_named(kind):
    """ "dark", "milk" or "white" however it is written, also of a chocolate of ingredients.csv ("dark 64 %"; see kind_of)
    or of a couverture of one's own.

    Raises StudentError for anything else.

    >>> kind_named("White couverture 28 %")
    'white'
    """
    name = str(kind).strip().casefold()
    if name in KINDS:
        return name
    mine = own_couverture(kind)
    return mine.kind if mine else _couverture(str(kind))[0]


def product_named(kind):
    """The name under which the bands of a chocolate are asked for: one's own couverture by its name, else its kind.

    >>> product_named("Dark 64 %")
    'dark'
    """
    mine = own_couverture(kind)
    return mine.name if mine else kind_named(kind)


def latent_heat(kind):
    """Latent heat of melting of set chocolate in kJ/kg, a plain float.

    kind: "dark", "milk" or "white" for the figures of Beckett 2009, which belong to about 29 % of cocoa butter, or a
    couverture of ingredients.csv or of one's own label ("dark 64 %"): its cocoa butter times 157. Raises StudentError for
    anything else.

    >>> latent_heat("dark"), round(latent_heat("dark 64 %"), 1)
    (46.0, 62.2)
    """
    name = str(kind).strip().casefold()
    if name in KINDS:
        return LATENT_HEAT[name]
    mine = own_couverture(kind)
    if mine and plain_name(mine.name) not in {plain_name(known) for known in own_ingredients()[0]}:
        return LATENT_HEAT[mine.kind]  # its bands are known, its cocoa butter is not
    return COCOA_BUTTER_LATENT * _couverture(str(kind))[1]


@looked_up
def _couverture(kind):
    """(kind, share of cocoa butter) of an ingredient of the family chocolate. Raises StudentError."""
    table = facts()  # asked first: a table at fault is not the fault of a name
    try:
        name = ingredient_name(kind)
    except StudentError:
        name = ""
    if not name or table[name]["family"] != "chocolate":
        raise StudentError(
            f"'{str(kind)[:60]}' as the kind of chocolate",
            "dark, milk or white, or a chocolate of the list of ingredients",
            "dark, or dark couverture 64 %",
        )
    return kind_of(name), ingredients()[name]["cocoa_butter"]


def kind_of(name):
    """ "dark", "milk" or "white" for an ingredient of the family chocolate, whatever it is called.

    One's own is what its label says. A name that holds one of these words decides. Else its composition does: with next to no starch and fibre, which come
    with the brown of the bean, it is white; with lactose, which comes with milk, it is milk. Limits: our own judgement,
    between what the table's chocolates hold and what the law asks of each kind. Raises StudentError for one that lies
    between, and for another family.

    >>> kind_of("White couverture 28 %"), kind_of("semisweet chips")
    ('white', 'dark')
    """
    known = ingredient_name(name)
    if facts()[known]["family"] != "chocolate":
        raise StudentError(f"{known}, which is no chocolate", "a chocolate or couverture", "dark couverture 64 %")
    mine = own_ingredients()[0].get(known)
    if mine:
        return mine.chocolate
    named = set(KINDS) & set(plain_name(known).split())
    return named.pop() if len(named) == 1 else _kind_by_composition(known)


def _kind_by_composition(known):
    row = ingredients()[known]
    bean, lactose = row["starch"] + row["fibre"], row["lactose"]
    if bean < _WHITE_BELOW and lactose > _DARK_BELOW:
        return "white"
    if bean > _BROWN_ABOVE and lactose > _MILK_ABOVE:
        return "milk"
    if bean > _BROWN_ABOVE and lactose < _DARK_BELOW:
        return "dark"
    raise StudentError(
        f"{known}, which may be dark, milk or white by what is in it",
        "one of these words in its name",
        f"milk {known}"[:60],
    )


def crystals_stand_to(kind):
    """Where temper is lost by warmth: (low, high) in degC, plain floats, for "dark", "milk" or "white".

    Up to `low` the crystals of a tempered bowl stand; above `high` they are lost in time; in between it depends on how
    long. A verdict takes the probe's error against the reader at both. Sources: dark 33.8 (Wille & Lutton 1966) and
    34.0 (Greweling 2007); milk and white from common practice and the melting point of form V under milk fat, no
    source. Raises StudentError for another kind.

    >>> crystals_stand_to("dark")
    (33.8, 34.0)
    """
    return STAND_TO[kind_named(kind)]


def products():
    """What a page offers where it asks for a kind of chocolate: dark, milk, white, and one's own couvertures.

    >>> products()[:3]
    ['dark', 'milk', 'white']
    """
    return [*KINDS, *own_couvertures()[0]]
