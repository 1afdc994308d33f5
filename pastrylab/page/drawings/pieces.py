"""Moulded pieces that came out wrong, and their shells."""

from pastrylab.page.drawings.shapes import (
    BLOOM,
    CHOCOLATE,
    DULL,
    GANACHE,
    GREY,
    INK,
    Drawing,
    cut_piece,
    dots,
    ellipse,
    line,
    path,
    piece,
    sheet,
    wave,
)

_MOULD = "#dbe6ec"


def _sound():
    return Drawing(
        "sound",
        sheet("as it should be", piece()),
        "A piece as it should be: smooth and even brown, with a bright, sharp gloss.",
    )


def _dull():
    tray = path("M20 20 L220 20 L220 112 L180 112 C180 60 156 40 120 40 C84 40 60 60 60 112 L20 112 Z", _MOULD, INK, 2)
    stuck = path(
        "M60 112 C60 60 84 40 120 40 C156 40 180 60 180 112 L166 118 L152 108 L138 120 L122 110 L108 122 L92 109 L76 118 Z",
        DULL,
        INK,
        1.5,
    )
    crumbs = dots(3, 9, (70, 122, 170, 129), (1.5, 3.5), DULL, INK)
    return Drawing(
        "dull",
        sheet("dull, sticks", tray, stuck, crumbs),
        "A mould turned over: the piece stays in it, dull and grey-brown, torn where it should have let go, with crumbs below.",
    )


def _streaked():
    streaks = "".join(
        path(wave(y, 40 + 5 * k, 210, 7, 36), stroke=GREY, width=3 + k % 3)
        for k, y in enumerate((54, 70, 86, 102, 116))
    )
    return Drawing(
        "streaked",
        sheet("grey streaks", piece(streaks, shine=False)),
        "A piece with grey waves and swirls all over it, and no gloss.",
    )


def _bubbles():
    holes = dots(12, 13, (76, 48, 166, 114), (3, 6.5), "#241309", "#9c7a63")
    foot = path("M48 122 C44 112 58 108 64 112 L176 112 C184 108 196 114 192 122 Z", CHOCOLATE, INK, 2)
    return Drawing(
        "bubbles",
        sheet("air bubbles", piece(holes, shine=False), foot),
        "A piece pitted with round holes where air was caught, on a thick foot where the chocolate dragged.",
    )


def _sets_on_the_knife():
    blade = path("M12 92 L170 78 C186 77 196 84 198 92 L196 98 L14 108 Z", "#c9ced3", INK, 2)
    handle = path("M196 82 L236 78 L236 102 L196 100 Z", "#5b4636", INK, 2)
    heap = path(
        "M44 92 L52 76 L64 80 L74 62 L88 70 L100 56 L114 66 L128 60 L138 74 L150 72 L156 86 L150 96 L120 98 L84 102 L56 104 Z",
        DULL,
        INK,
        1.6,
    )
    grains = dots(5, 22, (60, 72, 146, 98), (2, 4.5), "#93776a", "#4f3a2e")
    return Drawing(
        "sets on the knife",
        sheet("sets on the knife", blade, handle, heap, grains),
        "Chocolate heaped on a knife: set already, dull, ragged and full of grains.",
    )


def _fat_bloom():
    film = "".join(
        ellipse(x, y, a, b, BLOOM, more=f'opacity="{o}"')
        for x, y, a, b, o in (
            (92, 76, 24, 16, 0.75),
            (132, 56, 30, 14, 0.7),
            (150, 92, 26, 20, 0.8),
            (106, 108, 34, 12, 0.6),
            (118, 82, 14, 9, 0.9),
        )
    )
    rubbed = path("M84 100 L128 66 L138 76 L96 112 Z", CHOCOLATE)
    return Drawing(
        "fat bloom",
        sheet("white film: fat", piece(film, rubbed, shine=False)),
        "A piece under a soft white film in clouds; where a finger has rubbed, it is brown again.",
    )


def _sugar_bloom():
    spots = dots(21, 26, (74, 48, 168, 116), (2.5, 5), "#ffffff", "#8c8178", sides=4)
    drops = "".join(
        path(
            f"M{x} {y} C{x - 8} {y + 12} {x - 6} {y + 18} {x} {y + 18} C{x + 6} {y + 18} {x + 8} {y + 12} {x} {y} Z",
            "#9cc7e0",
            INK,
            1.2,
        )
        for x, y in ((98, 62), (140, 74), (114, 92))
    )
    return Drawing(
        "sugar bloom",
        sheet("rough grains: sugar", piece(spots, drops, shine=False)),
        "A piece with drops of water and rough white grains of sugar on it.",
    )


def _cracked():
    cracks = "".join(
        line(points, "#f6ecd9", width)
        for points, width in (
            ([(118, 32), (112, 52), (124, 66), (114, 88), (122, 104), (116, 122)], 4),
            ([(124, 66), (142, 74), (150, 90), (166, 98)], 3),
            ([(114, 88), (96, 92), (88, 106)], 3),
        )
    )
    return Drawing(
        "cracked",
        sheet("cracked shell", piece(cracks)),
        "A piece with a jagged crack from top to bottom and two that branch off it.",
    )


def _leaking():
    pool = path(
        "M138 118 C150 108 178 112 198 118 C222 122 226 132 200 132 C176 134 150 132 138 128 Z", "#b5703a", INK, 1.5
    )
    hole = path("M138 122 C136 108 146 100 154 104 C162 108 160 118 164 122 Z", "#b5703a", INK, 1.5)
    return Drawing(
        "leaking",
        sheet("leaks", piece(), hole, pool),
        "A piece with a hole at its foot: filling has run out into a sticky pool.",
    )


def _fur():
    hair = "".join(
        line([(78 + 4 * k, 108), (76 + 4 * k + (k * 7) % 5, 84 + (k * 5) % 11)], "#56634f", 1.6) for k in range(21)
    )
    tufts = "".join(ellipse(78 + 8 * k, 104 - (k * 3) % 5, 8, 7, "#8b9a82", "#56634f", 1) for k in range(11))
    return Drawing(
        "fur under the cap",
        sheet("fur under the cap", cut_piece(tufts, hair, filling="#d9a3ab")),
        "A piece cut open: on the filling, just where the chocolate closes it, grey-green fur; clean elsewhere.",
    )


def _bulges():
    swollen = path("M46 122 C40 52 78 18 120 20 C162 18 200 52 194 122 Z", CHOCOLATE, INK, 2)
    crack = line([(120, 20), (126, 44), (116, 60), (124, 76)], "#f6ecd9", 4)
    froth = dots(9, 11, (106, 14, 136, 34), (3, 6), "#e8d9c6", INK)
    was = path(
        "M60 122 C60 60 84 32 120 32 C156 32 180 60 180 122", stroke="#ffffff", width=1.6, more='stroke-dasharray="5 4"'
    )
    return Drawing(
        "bulges",
        sheet("bulges, froths", ellipse(122, 123, 84, 5, "#d8d8d8"), swollen, was, crack, froth),
        "A piece swollen well past its shape, shown dashed; it has burst at the top, and froth comes out.",
    )


def _shrunk():
    smaller = "M92 110 C92 82 102 64 120 64 C138 64 148 82 148 110 Z"
    inside = path("M72 110 C72 68 90 44 120 44 C150 44 168 68 168 110 Z", "#ffffff", INK, 1)
    core = (
        path(smaller, GANACHE, INK, 1.5)
        + line([(104, 84), (112, 92), (108, 102)], INK, 1.5)
        + line([(130, 76), (126, 90)], INK, 1.5)
    )
    return Drawing(
        "shrunk",
        sheet("shrunk, dry", cut_piece(inner=smaller), inside, core),
        "A piece cut open: the filling is dry and cracked and has drawn back, with a gap all round.",
    )


PIECES = tuple(
    draw()
    for draw in (
        _sound,
        _dull,
        _streaked,
        _bubbles,
        _sets_on_the_knife,
        _fat_bloom,
        _sugar_bloom,
        _cracked,
        _leaking,
        _fur,
        _bulges,
        _shrunk,
    )
)
