"""The parts drawings are put together from: a sheet, a piece of chocolate whole and cut, a bowl, a pan, a slab."""

import math
import random
from dataclasses import dataclass

INK, PAPER, STEEL, GLASS = "#222222", "#f6ecd9", "#c9ced3", "#e4edf2"
CHOCOLATE, DULL, GREY, BLOOM = "#4a2a17", "#75594a", "#b7a99d", "#eee7df"
GANACHE, OIL, CREAM, FRUIT = "#6b4028", "#e0b13c", "#f2e2c4", "#a8324a"
WIDTH, HEIGHT = 240, 160


@dataclass(frozen=True)
class Drawing:
    """A drawing: its name, its SVG, and the alt text that says what is to be seen on it."""

    name: str
    svg: str
    alt: str


def sheet(word, *parts, width=WIDTH, height=HEIGHT):
    """The SVG of these parts on white, with a word below them; parts are drawn above the line height - 26."""
    middle = width / 2
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}">'
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>{"".join(parts)}'
        f'<text x="{middle:g}" y="{height - 7}" text-anchor="middle" font-family="sans-serif" font-size="17" '
        f'fill="{INK}">{word}</text></svg>\n'
    )


def path(d, fill="none", stroke="none", width=1.5, more=""):
    """A path; d as in SVG."""
    return f'<path d="{d}" fill="{fill}" stroke="{stroke}" stroke-width="{width:g}" {more}/>'


def line(points, stroke=INK, width=1.5, more=""):
    """A line through points (x, y)."""
    return path("M" + " L".join(f"{x:g} {y:g}" for x, y in points), stroke=stroke, width=width, more=more)


def ellipse(x, y, across, down, fill="none", stroke="none", width=1.5, more=""):
    """An ellipse by its centre and half its width and height."""
    return (
        f'<ellipse cx="{x:g}" cy="{y:g}" rx="{across:g}" ry="{down:g}" fill="{fill}" stroke="{stroke}" '
        f'stroke-width="{width:g}" {more}/>'
    )


def cut_to(name, outline, *parts):
    """Parts, cut off where they leave the outline (a path's d)."""
    return f'<clipPath id="{name}"><path d="{outline}"/></clipPath><g clip-path="url(#{name})">{"".join(parts)}</g>'


def dots(seed, count, box, size, fill, stroke="none", sides=0):
    """Scattered spots in a box (left, top, right, bottom): round ones, or grains with that many sides."""
    dice = random.Random(seed)
    left, top, right, bottom = box
    found = []
    for _ in range(count):
        x, y, r = dice.uniform(left, right), dice.uniform(top, bottom), dice.uniform(*size)
        if not sides:
            found.append(ellipse(round(x, 1), round(y, 1), round(r, 1), round(r, 1), fill, stroke, 1))
            continue
        turn = dice.uniform(0, 2)
        corners = [
            (
                round(x + r * math.cos(turn + 2 * math.pi * k / sides), 1),
                round(y + r * math.sin(turn + 2 * math.pi * k / sides), 1),
            )
            for k in range(sides)
        ]
        found.append(path("M" + " L".join(f"{a:g} {b:g}" for a, b in corners) + " Z", fill, stroke, 1))
    return "".join(found)


def wave(y, left, right, height, length):
    """A wavy line's d from left to right."""
    steps = [f"M{left:g} {y:g}"]
    x, up = left, 1
    while x < right:
        steps.append(f"Q{x + length / 2:g} {y - up * height:g} {x + length:g} {y:g}")
        x, up = x + length, -up
    return " ".join(steps)


# --- a moulded piece, from the side: 120 wide, standing on y = 122 ------------------------------------------------

DOME = "M60 122 C60 60 84 32 120 32 C156 32 180 60 180 122 Z"


def piece(*on_it, fill=CHOCOLATE, shine=True):
    """A moulded piece on the bench; shine: a window mirrored in it. on_it is cut to its outline."""
    gloss = path("M86 64 C92 50 102 44 112 43 L114 52 C104 54 96 60 92 70 Z", "#ffffff", more='opacity="0.85"')
    gloss += path("M84 74 L90 75 L86 96 L80 95 Z", "#ffffff", more='opacity="0.6"')
    ground = ellipse(122, 123, 72, 5, "#d8d8d8")
    inside = cut_to("dome", DOME, path(DOME, fill), *on_it, gloss if shine else "")
    return ground + inside + path(DOME, stroke=INK, width=2)


INNER = "M72 110 C72 68 90 44 120 44 C150 44 168 68 168 110 Z"


def cut_piece(*on_it, filling=GANACHE, inner=INNER, shell=CHOCOLATE):
    """A piece cut through: shell all round, filling within. on_it is cut to the filling."""
    ground = ellipse(122, 123, 72, 5, "#d8d8d8")
    inside = path(inner, filling) + cut_to("filling", inner, *on_it)
    return ground + path(DOME, shell, INK, 2) + inside + path(inner, stroke=INK, width=1)


# --- a bowl and a pan ----------------------------------------------------------------------------------------------


def bowl(*in_it, content=GANACHE):
    """A bowl seen from a little above, with what is in it; in_it is cut to its surface, an ellipse 80 by 26 at 120, 56."""
    surface = "M40 56 A80 26 0 0 1 200 56 A80 26 0 0 1 40 56 Z"
    body = path("M30 54 C34 108 70 126 120 126 C170 126 206 108 210 54 Z", STEEL, INK, 2)
    rim = ellipse(120, 54, 90, 32, "#f2f4f5", INK, 2)
    return body + rim + path(surface, content, INK, 1) + cut_to("surface", surface, *in_it)


def pan(*over_it, content=CREAM, level=70):
    """A pan cut open from the side, filled up to `level` (y), with what rises over it."""
    handle = path("M188 58 L232 50 L233 58 L188 68 Z", "#8d949a", INK, 1.5)
    filled = path(f"M53 {level} L187 {level} L187 120 Q187 124 183 124 L57 124 Q53 124 53 120 Z", content)
    return (
        handle
        + filled
        + "".join(over_it)
        + path("M52 44 L52 120 Q52 126 58 126 L182 126 Q188 126 188 120 L188 44", stroke=INK, width=3)
    )


def slab(*on_it, fill=GANACHE):
    """A slab of ganache or filling, seen from a corner; on_it lies on its front."""
    top = path("M44 62 L84 38 L204 38 L172 62 Z", "#8a5a3d" if fill == GANACHE else fill, INK, 2)
    side = path("M172 62 L204 38 L204 98 L172 124 Z", "#53301d" if fill == GANACHE else fill, INK, 2)
    front = "M44 62 L172 62 L172 124 L44 124 Z"
    return top + side + path(front, fill) + cut_to("front", front, *on_it) + path(front, stroke=INK, width=2)
