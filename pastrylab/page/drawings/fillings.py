"""Ganaches and fillings that came out wrong."""

from pastrylab.page.drawings.shapes import (
    CHOCOLATE,
    CREAM,
    GANACHE,
    INK,
    OIL,
    Drawing,
    bowl,
    cut_piece,
    dots,
    ellipse,
    line,
    path,
    sheet,
    slab,
)


def _split():
    curd = dots(14, 60, (46, 34, 194, 80), (3, 6), "#4d2c1a", "#2b1a10")
    oil = "".join(
        ellipse(x, y, a, b, OIL, "#8a6a14", 1.2)
        for x, y, a, b in ((78, 50, 22, 8), (148, 46, 26, 8), (112, 68, 30, 8), (176, 64, 12, 5))
    )
    return Drawing(
        "split",
        sheet("split: oil", bowl(curd, oil)),
        "A bowl of dark, grainy lumps with yellow pools of oil standing on them.",
    )


def _smooth():
    swirl = path(
        "M70 56 C70 40 168 40 168 56 C168 70 92 70 92 57 C92 48 146 48 146 57 C146 62 116 62 116 58",
        stroke="#a47a5c",
        width=4,
    )
    gloss = path("M56 50 C64 40 84 36 96 35 L98 39 C84 41 70 46 64 54 Z", "#ffffff", more='opacity="0.8"')
    return Drawing(
        "smooth",
        sheet("as it should be", bowl(swirl, gloss)),
        "A bowl of ganache as it should be: smooth, even brown and glossy, without oil or lumps.",
    )


def _lumps():
    lumps = dots(6, 9, (60, 42, 180, 72), (7, 11), CHOCOLATE, INK, sides=6)
    butter = dots(2, 5, (66, 42, 176, 70), (5, 8), CREAM, INK, sides=4)
    return Drawing(
        "lumps",
        sheet("lumps", bowl(lumps, butter)),
        "A bowl of ganache with hard lumps of chocolate and pale lumps of butter in it.",
    )


def _soft():
    heap = path(
        "M20 124 C30 106 74 104 88 92 C96 84 106 80 120 80 C136 80 148 86 156 94 C170 106 212 108 222 124 Z",
        GANACHE,
        INK,
        2,
    )
    rings = path("M62 112 C90 102 154 102 182 112", stroke="#8a5a3d", width=3) + path(
        "M92 98 C108 92 134 92 150 98", stroke="#8a5a3d", width=3
    )
    wanted = path(
        "M70 124 L82 100 L76 96 L94 74 L88 70 L120 24 L152 70 L146 74 L164 96 L158 100 L170 124",
        stroke="#6f6f6f",
        width=1.6,
        more='stroke-dasharray="5 4"',
    )
    return Drawing(
        "too soft",
        sheet("too soft", heap, rings, wanted),
        "Piped ganache that has sunk to a flat puddle; the ridged rosette it should have been is dashed.",
    )


def _hard():
    left = path("M28 70 L104 62 L98 82 L110 94 L100 124 L28 124 Z", GANACHE, INK, 2)
    right = path("M128 62 L208 72 L208 124 L124 124 L134 100 L120 86 Z", GANACHE, INK, 2)
    knife = path("M108 14 L122 14 L120 78 L114 88 Z", "#c9ced3", INK, 1.8)
    crumbs = dots(7, 14, (98, 108, 134, 128), (2, 4.5), GANACHE, INK, sides=5)
    return Drawing(
        "too hard",
        sheet("hard, crumbles", left, right, knife, crumbs),
        "A slab under the knife breaks with jagged edges and falls to crumbs.",
    )


def _grainy():
    grains = dots(31, 70, (76, 48, 164, 108), (2, 4), "#d9c1a5", "#3a2114", sides=5)
    return Drawing(
        "grainy",
        sheet("grainy", cut_piece(grains)),
        "A piece cut open: the filling is full of small hard grains, like sand.",
    )


def _airy():
    holes = dots(15, 17, (80, 54, 160, 106), (4, 7), "#2b1a10", "#a47a5c")
    return Drawing(
        "air in the filling",
        sheet("air bubbles", cut_piece(holes)),
        "A piece cut open: round holes all through the filling, where air was beaten in.",
    )


def _skin():
    skin = path("M44 62 L84 38 L204 38 L172 62 Z", "#4a2c1c", INK, 2)
    cracks = "".join(
        line(points, "#d9c1a5", 2)
        for points in (
            [(80, 42), (98, 50), (92, 60)],
            [(126, 40), (132, 50), (150, 54), (148, 61)],
            [(176, 40), (168, 50)],
        )
    )
    edge = path("M44 62 L172 62 L172 70 L44 70 Z", "#4a2c1c", INK, 1.2)
    return Drawing(
        "dry skin",
        sheet("dry skin", slab(edge), skin, cracks),
        "A slab of ganache with a dark, dry, cracked skin on top; below it is soft.",
    )


def _spoiled():
    jar = path("M72 40 L168 40 L172 56 L172 122 Q172 128 166 128 L74 128 Q68 128 68 122 L68 56 Z", "#e4edf2", INK, 2)
    inside = path("M72 76 L168 76 L168 120 Q168 124 164 124 L76 124 Q72 124 72 120 Z", GANACHE)
    lid = path("M62 40 C80 14 160 14 178 40 Z", "#c9ced3", INK, 2)
    fur = "".join(ellipse(x, 74, 9, 6, "#7d8c74", "#4b5645", 1.2) for x in (88, 108, 140, 154))
    hair = "".join(
        line([(x, 70), (x + d, 62)], "#4b5645", 1.5) for x in (86, 92, 106, 112, 138, 144, 154) for d in (-2, 3)
    )
    return Drawing(
        "spoiled",
        sheet("spoiled", jar, inside, fur, hair, lid),
        "A jar whose lid is blown up into a dome, with grey-green mould on the ganache.",
    )


FILLINGS = tuple(draw() for draw in (_smooth, _split, _lumps, _soft, _hard, _grainy, _airy, _skin, _spoiled))
