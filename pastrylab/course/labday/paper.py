"""The key to lesson 09's sheet on paper."""

from pastrylab.school.paper_key import Key
from pastrylab.trade.moulds import bowl

_HEAD = "- - - - - clock clock clock minutes - - - minutes - min min h h min min h h min min h h"
_REJECTS = 0.1  # "One in ten", which the sheet has in words


def _moulds(s):
    dark, of_dark, raspberry, hazelnut, of_others = s[0][:5]
    orders = ((dark, of_dark), (raspberry, of_others), (hazelnut, of_others))
    return [bowl.fills(int(good), _REJECTS, int(holds)).count for good, holds in orders]


def _fills(s):
    found = _moulds(s)
    return (*map(str, found), str(sum(found))), "Good pieces ÷ 0.9, ÷ the cavities, rounded up."


def _casting(s):
    minutes = s[0][8]
    return tuple(f"{many * minutes:g}" for many in _moulds(s)), f"{minutes:g} minutes a mould."


def _backwards(s):
    _, closes, fetched, _, _, cap, out, _, caps_set = s[0][5:14]
    many, rest = _moulds(s)[0], 60 * s[0][17]
    turned = fetched - many * out
    capped = turned - caps_set
    capping = capped - many * cap
    latest = min(closes, capping - rest + 1440)
    said = f"{many} × {out:g} min; caps set {caps_set:g} min; {many} × {cap:g} min."
    if latest == closes:
        said += f" {rest / 60:g} h before {_at(capping)} nobody is there: filled before the first morning ends."
    return (_at(turned), _at(capped), _at(capping), _at(latest), "1"), said


def _at(minutes):
    return f"{int(minutes) // 60}:{int(minutes) % 60:02d}"


def _days(_s):
    return (
        "both ganaches on day 1; hazelnut may be on day 2",
    ), "Twelve hours in the shell take a night; two hours do not."


def _drawn(_s):
    return (), "Nobody in two places, one kind in a machine, nuts last. pastrylab plan draws one to compare."


def _first(_s):
    return (None,), "Read off the drawing: the first box of the longest chain."


def _nuts(_s):
    return ("what has no nuts", "nothing, before it has been cleaned"), "Nuts last, and traces are named on the label."


def _late(_s):
    said = "what comes after it moves; no rest is cut short, and 12:30 stays"
    return (said,), "Where it no longer fits, the order gives way: fewer pieces, or a call to the customer."


KEYS = {
    "09": {
        0: Key(_HEAD, None),
        1: Key("", _fills, uses=(0,)),
        2: Key("", _casting, uses=(0,)),
        3: Key("clock -", _backwards, uses=(0,)),
        4: Key("- -", _days),
        5: Key("", _drawn),
        6: Key("", _first),
        7: Key("", _nuts),
        8: Key("minutes", _late),
    }
}
