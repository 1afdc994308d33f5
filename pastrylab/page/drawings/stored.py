"""What cold, damp, water and smells do to pieces, and to the moulds they come from."""

from pastrylab.page.drawings.shapes import (
    BLOOM,
    CHOCOLATE,
    INK,
    PAPER,
    Drawing,
    cut_to,
    dots,
    ellipse,
    line,
    path,
    piece,
    sheet,
)

_WATER, _WRAP = "#9cc7e0", "#dfeaf0"


def _drop(x, y, size=1.0):
    d = f"M{x} {y} C{x - 7 * size:g} {y + 10 * size:g} {x - 6 * size:g} {y + 16 * size:g} {x} {y + 16 * size:g} "
    d += f"C{x + 6 * size:g} {y + 16 * size:g} {x + 7 * size:g} {y + 10 * size:g} {x} {y} Z"
    return path(d, _WATER, INK, 1.2)


def _sweats():
    beads = "".join(_drop(x, y) for x, y in ((84, 84), (100, 52), (112, 92), (126, 62), (144, 86), (158, 102)))
    fine = dots(8, 34, (70, 44, 172, 116), (1.2, 2.4), "#e9f3f8", "#5d7f91")
    pool = path("M44 124 C60 116 180 116 200 124 C204 132 40 132 44 124 Z", _WATER, INK, 1.2)
    return Drawing(
        "sweats",
        sheet("sweats", pool, piece(fine, beads, shine=False)),
        "A piece just out of the cold, covered in beads of water large and small, in a ring of water on the bench.",
    )


def _water_spots():
    rings = "".join(
        ellipse(x, y, r, 0.8 * r, "#5d3a24", BLOOM, 2.2) + ellipse(x, y, 0.45 * r, 0.35 * r, stroke=BLOOM, width=1)
        for x, y, r in ((100, 78, 11), (132, 58, 8), (148, 92, 13), (112, 106, 7), (166, 112, 6))
    )
    return Drawing(
        "water spots",
        sheet("water spots", piece(rings)),
        "A glossy piece with flat, dull rings on it, each with a pale rim: where drops dried on the mould.",
    )


def _dull_film():
    smears = "".join(
        path(f"M{x} 124 C{x + 6} 96 {x + 18} 66 {x + 34} 40", stroke="#8d7668", width=7, more='opacity="0.8"')
        for x in (56, 78, 100, 122, 144)
    )
    return Drawing(
        "wiped streaks",
        sheet("streaks, all one way", piece(smears, shine=False)),
        "A piece without gloss, with broad dull streaks that all run one way, as the cloth went over the mould.",
    )


def _smell():
    box = "M20 74 L124 74 L124 126 L20 126 Z"
    lid = path("M14 74 L28 54 L132 40 L128 60 Z", _WRAP, INK, 2)
    pieces = "".join(path(f"M{x} 126 C{x} 92 {x + 30} 92 {x + 30} 126 Z", CHOCOLATE, INK, 1.5) for x in (26, 58, 90))
    onion = path("M196 60 C160 72 152 118 196 126 C240 118 232 72 196 60 Z", PAPER, INK, 2)
    onion += "".join(
        path(f"M196 62 C{196 + x} 80 {196 + x} 110 196 125", stroke="#a07b3a", width=1.5) for x in (-24, -9, 9, 24)
    )
    onion += line([(196, 60), (192, 44)], INK, 2) + line([(196, 60), (201, 46)], INK, 2)
    drift = "".join(
        path(f"M164 {y} C154 {y - 9} 148 {y + 9} 138 {y} C132 {y - 5} 128 {y} 122 {y + 4}", stroke="#555555", width=2)
        for y in (62, 78, 94)
    )
    return Drawing(
        "takes on smells",
        sheet("tastes of the store", path(box, _WRAP, INK, 2), pieces, lid, onion, drift),
        "A box of pieces with its lid ajar, an onion beside it, and wavy lines of smell that go from the onion into the box.",
    )


def _grey_when_dry():
    crust = dots(33, 60, (66, 40, 176, 120), (1.6, 3.2), BLOOM, "#8c8178", sides=4)
    dome = "M60 122 C60 60 84 32 120 32 C156 32 180 60 180 122 Z"
    clean = path("M120 30 L182 30 L182 124 L120 124 Z", CHOCOLATE)
    half = cut_to("kept", dome, clean)
    gloss = path("M140 52 C150 60 158 72 161 88 L155 89 C152 76 146 66 137 58 Z", "#ffffff", more='opacity="0.85"')
    seam = line([(120, 32), (120, 122)], "#ffffff", 1.6, 'stroke-dasharray="5 4"')
    return Drawing(
        "unwrapped too soon",
        sheet("too soon | in time", piece(crust, shine=False), half, gloss, seam, path(dome, stroke=INK, width=2)),
        "One piece in two halves. Left, unwrapped too soon: grey and rough with fine grains. Right, in time: brown and glossy.",
    )


STORED = tuple(draw() for draw in (_sweats, _grey_when_dry, _water_spots, _dull_film, _smell))
