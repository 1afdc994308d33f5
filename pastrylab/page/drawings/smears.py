"""Four smears on a strip of paper: in temper, over-seeded, under-seeded, and temper lost."""

import math

from pastrylab.page.drawings.shapes import (
    CHOCOLATE,
    DULL,
    GREY,
    INK,
    PAPER,
    Drawing,
    cut_to,
    dots,
    ellipse,
    line,
    path,
    sheet,
    wave,
)

_WIDTH, _HEIGHT = 320, 200
_SMEAR = "M34 74 C60 62 150 60 206 66 C224 68 226 118 208 124 C150 132 70 130 36 120 C24 112 24 82 34 74 Z"
_THICK = (
    "M36 70 L52 62 L70 68 L92 58 L116 66 L142 57 L168 65 L190 58 L214 68 L222 84 L214 98 L224 112 L206 126 L182 122 "
    "L160 132 L134 124 L108 133 L84 125 L58 131 L38 122 L28 106 L36 92 L26 82 Z"
)
_RUN = (
    "M30 70 C70 56 170 56 214 64 C236 70 236 120 216 128 C200 132 196 134 194 156 C192 172 176 172 176 156 C176 136 160 134 "
    "120 134 C112 136 110 146 108 152 C104 162 94 160 94 150 C94 138 84 134 40 128 C18 116 16 80 30 70 Z"
)


def _paper():
    return path("M14 46 L246 40 L250 140 L16 146 Z", PAPER, "#b9a98c", 1.5)


def _clock(minutes):
    """A clock with the minutes since the smear was laid as a filled sector, and in words."""
    x, y, r = 284, 46, 26
    turn = 2 * math.pi * minutes / 60
    tip = f"{x + r * math.sin(turn):.1f} {y - r * math.cos(turn):.1f}"
    face = ellipse(x, y, r, r, "#ffffff", INK, 2)
    passed = path(f"M{x} {y} L{x} {y - r} A{r} {r} 0 0 1 {tip} Z", "#f2c14e", INK, 1)
    ticks = "".join(
        line(
            [
                (round(x + a * math.sin(k * math.pi / 6), 1), round(y - a * math.cos(k * math.pi / 6), 1))
                for a in (r - 5, r - 1)
            ],
            width=1.2,
        )
        for k in range(12)
    )
    word = f'<text x="{x}" y="{y + r + 19}" text-anchor="middle" font-family="sans-serif" font-size="15" fill="{INK}">{minutes} min</text>'
    return face + passed + ticks + word


def _finger(stained):
    """The fingertip that has touched it."""
    skin = path("M318 176 L270 150 C256 142 258 124 274 124 C280 124 284 126 318 138 Z", "#edc3a4", INK, 1.8)
    nail = path("M266 131 C270 127 276 127 282 130 L278 138 C274 139 268 138 265 136 Z", "#f8dfcd", INK, 1)
    stain = path("M270 150 C256 142 258 124 272 124 C272 134 276 146 286 158 Z", CHOCOLATE, INK, 1.2) if stained else ""
    return skin + (stain or nail)


def _smear(word, minutes, outline, fill, stained, *on_it):
    inside = cut_to("smear", outline, path(outline, fill), *on_it)
    parts = (_paper(), inside, path(outline, stroke=INK, width=1.6), _clock(minutes), _finger(stained))
    return sheet(word, *parts, width=_WIDTH, height=_HEIGHT)


def in_temper(word="in temper"):
    """Set by four minutes, one brown, a gloss with sharp edges, and a clean snap where the strip was bent."""
    window = path("M66 74 L112 71 L96 116 L50 119 Z", "#ffffff", more='opacity="0.55"')
    window += path("M122 70 L136 69 L120 115 L106 116 Z", "#ffffff", more='opacity="0.55"')
    snap = path("M168 40 L173 78 L168 98 L174 140 L181 140 L176 98 L181 78 L176 40 Z", PAPER, INK, 1.2)
    return Drawing(
        "in temper",
        _smear(word, 4, _SMEAR, CHOCOLATE, False, window, snap),
        "After 4 minutes: one even brown, a mirror gloss with sharp edges, a straight crack where the strip was bent, "
        "and a clean finger.",
    )


def over_seeded(word="over-seeded"):
    """Set within a minute, thick and dull, with ridges where the knife dragged, lumps and pinholes."""
    ridges = "".join(path(wave(y, 20, 230, 3, 26), stroke="#4f3a2e", width=2.2) for y in (74, 84, 94, 104, 114, 123))
    lumps = dots(4, 16, (40, 68, 212, 122), (3, 6.5), "#93776a", "#4f3a2e")
    holes = dots(8, 14, (40, 70, 212, 122), (1.4, 2.6), "#2b1a10")
    return Drawing(
        "over-seeded",
        _smear(word, 1, _THICK, DULL, False, ridges, lumps, holes),
        "After 1 minute: set already, thick and dull, with ragged edges, ridges where it dragged, lumps and pinholes; the "
        "finger is clean.",
    )


def under_seeded(word="under-seeded"):
    """Still soft in the middle after ten minutes, set at the rim, with grey streaks and swirls."""
    streaks = "".join(
        path(wave(y, 10 + 9 * k, 240, 6 + k % 3, 44 + 5 * k), stroke=GREY, width=w)
        for k, (y, w) in enumerate(((72, 4), (84, 6), (104, 5), (116, 7), (126, 3)))
    )
    swirl = path("M96 100 C96 84 128 82 130 98 C132 112 106 114 106 100 C106 92 120 90 121 98", stroke=GREY, width=4)
    press = ellipse(176, 95, 22, 15, "#6b432a", "#2b1a10", 1.5)
    press += "".join(
        path(f"M{160 + 2 * k} {90 + 4 * k} Q176 {84 + 4 * k} {192 - 2 * k} {90 + 4 * k}", stroke="#2b1a10", width=1.2)
        for k in range(3)
    )
    return Drawing(
        "under-seeded",
        _smear(word, 10, _SMEAR, CHOCOLATE, True, streaks, swirl, press),
        "After 10 minutes: grey streaks and swirls, no gloss; the middle is soft, takes a fingerprint and stains the finger.",
    )


def lost(word="temper lost"):
    """Wholly wet after ten minutes: dark, shining like oil, running off the strip."""
    wet = path("M46 76 C80 66 150 66 190 72 C150 76 90 78 60 88 Z", "#ffffff", more='opacity="0.75"')
    wet += ellipse(200, 82, 9, 5, "#ffffff", more='opacity="0.75"')
    wet += ellipse(102, 150, 3, 5, "#ffffff", more='opacity="0.6"') + ellipse(
        184, 154, 3, 7, "#ffffff", more='opacity="0.6"'
    )
    track = path("M96 104 C130 96 170 98 218 112 L214 124 C170 112 130 112 100 116 Z", "#8a6a52", "#2b1a10", 1)
    return Drawing(
        "temper lost",
        _smear(word, 10, _RUN, "#38200f", True, wet, track),
        "After 10 minutes: still liquid, dark and shining like oil, running off the strip; the finger draws a track and "
        "comes away brown.",
    )


SMEARS = (in_temper, over_seeded, under_seeded, lost)
