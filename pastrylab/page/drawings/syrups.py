"""Syrups and cooked sugar that came out wrong."""

from pastrylab.page.drawings.shapes import INK, Drawing, cut_piece, dots, ellipse, pan, path, sheet

_SYRUP, _BROWN = "#f3dd9a", "#8a4a12"


def _jar(content, *in_it):
    glass = path(
        "M80 34 L160 34 L160 44 L170 56 L170 120 Q170 128 162 128 L78 128 Q70 128 70 120 L70 56 L80 44 Z",
        "#eef4f7",
        INK,
        2,
    )
    inside = path("M74 66 L166 66 L166 118 Q166 124 160 124 L80 124 Q74 124 74 118 Z", content)
    lid = path("M76 22 L164 22 L164 34 L76 34 Z", "#c9ced3", INK, 2)
    return glass + inside + "".join(in_it) + lid


def _sets_white():
    grains = dots(11, 46, (80, 72, 160, 118), (2.5, 5), "#ffffff", "#9a9287", sides=6)
    spoon = path("M112 66 L116 46 L124 46 L126 66 L138 88 L100 90 Z", "#c9ced3", INK, 1.6)
    return Drawing(
        "sets white",
        sheet("sets white", _jar("#f4f0e6", grains, spoon)),
        "A jar of syrup that has set: white and full of crystals; the spoon stands in it.",
    )


def _brown():
    smoke = "".join(
        path(f"M{x} 40 C{x - 10} 32 {x + 10} 24 {x} 12", stroke="#8f8f8f", width=2.5) for x in (92, 120, 148)
    )
    return Drawing(
        "brown and bitter",
        sheet("brown, bitter", pan(smoke, content=_BROWN, level=76)),
        "A pan of syrup that has turned dark brown, with smoke rising from it.",
    )


def _foams_over():
    foam = dots(17, 46, (48, 18, 192, 60), (8, 13), "#fffaf0", "#9a8f7c")
    runs = path("M44 44 C34 52 36 96 40 118 C42 128 30 130 26 126 C22 110 28 60 40 42 Z", "#fffaf0", "#9a8f7c", 1.5)
    runs += path(
        "M196 44 C206 52 204 74 202 96 C202 106 212 106 214 98 C216 74 212 50 200 42 Z", "#fffaf0", "#9a8f7c", 1.5
    )
    return Drawing(
        "foams over",
        sheet("foams over", pan(foam, runs, content=_SYRUP, level=60)),
        "A pan whose foam rises over the rim and runs down outside.",
    )


def _too_soft():
    glass = path("M66 16 L174 16 L164 128 L76 128 Z", "#eef4f7", INK, 2)
    water = path("M69 44 L171 44 L163 126 L77 126 Z", "#cfe4ef")
    threads = "".join(
        path(f"M{x} 46 C{x + 9} 66 {x - 9} 84 {x} 112", stroke="#b07d1c", width=2.5) for x in (106, 120, 134)
    )
    puddle = ellipse(120, 116, 40, 8, "#d99f33", INK, 1.6)
    ball = ellipse(120, 98, 20, 20, stroke="#4f4f4f", width=1.6, more='stroke-dasharray="5 4"')
    return Drawing(
        "sugar too soft",
        sheet("sugar too soft", glass, water, threads, puddle, ball),
        "Cooked sugar in a glass of cold water: it runs down in threads to a flat puddle; the ball it should make is dashed.",
    )


def _too_thin():
    empty = path("M72 92 C73 62 92 44 120 44 C150 44 168 68 168 92 Z", "#ffffff", INK, 1)
    runs = path(
        "M72 92 L168 92 L182 106 C192 114 226 118 226 126 C226 132 160 132 152 126 L150 110 L72 110 Z",
        "#d9a05a",
        INK,
        1.5,
    )
    return Drawing(
        "too thin",
        sheet("too thin", cut_piece(filling="#d9a05a"), empty, runs),
        "A piece cut open and half empty: the filling has run out through its side into a puddle.",
    )


SYRUPS = tuple(draw() for draw in (_sets_white, _brown, _foams_over, _too_soft, _too_thin))
