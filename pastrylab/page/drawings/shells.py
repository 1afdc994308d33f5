"""Moulded shells and caps that came out wrong: what is to be seen from outside, and on a piece cut through."""

from pastrylab.page.drawings.shapes import (
    CHOCOLATE,
    DULL,
    GANACHE,
    INK,
    Drawing,
    cut_piece,
    ellipse,
    line,
    path,
    piece,
    sheet,
)

_AIR = "#ffffff"
_GROUND = ellipse(122, 123, 72, 5, "#d8d8d8")


def _thin_rim():
    # The walls run out to nothing where the piece stands: the filling is wide at its foot.
    inner = "M62 118 C66 72 90 46 120 46 C150 46 174 72 178 118 Z"
    cracks = line([(61, 116), (70, 106), (66, 98), (74, 90)], "#f6ecd9", 3)
    cracks += line([(179, 116), (170, 108), (174, 98), (168, 92)], "#f6ecd9", 3)
    return Drawing(
        "thin rim",
        sheet("thin rim, cracked", cut_piece(inner=inner), cracks),
        "A piece cut open: the wall is thick at the top and runs out to nothing at the rim, where it has cracked on both sides.",
    )


def _thick_bottom():
    inner = "M66 112 C68 92 78 80 96 78 C112 77 128 77 144 78 C162 80 172 92 174 112 Z"
    return Drawing(
        "thick bottom",
        sheet("thick bottom", cut_piece(inner=inner)),
        "A piece cut open: a plug of solid chocolate where the mould was deepest, thin walls, and little filling below it.",
    )


def _hollow():
    low = "M74 92 C80 62 96 44 120 44 C144 44 160 62 166 92 Q120 100 74 92 Z"
    gap = "M72 110 C72 102 73 97 74 92 Q120 100 166 92 C167 97 168 102 168 110 Z"
    open_ = path(gap, _AIR, INK, 1)
    return Drawing(
        "hollow under the cap",
        sheet("hollow under cap", cut_piece(inner=low), open_),
        "A piece cut open: between the filling and the cap it stands on lies an empty white space from wall to wall.",
    )


def _sunk():
    body = path("M60 122 C60 60 84 32 120 32 C156 32 180 60 180 122 Q120 88 60 122 Z", CHOCOLATE, INK, 2)
    core = path("M73 100 C76 66 92 44 120 44 C148 44 164 66 167 100 Q120 82 73 100 Z", GANACHE, INK, 1)
    was = line([(62, 122), (178, 122)], INK, 1.6, 'stroke-dasharray="5 4"')
    return Drawing(
        "sunk cap",
        sheet("sunk cap", _GROUND, body, core, was),
        "A piece cut open: its cap bends inward, away from the dashed straight line on which it should stand.",
    )


def _foot():
    skirt = path(
        "M34 123 C30 113 46 109 60 112 L180 112 C196 109 210 114 204 124 L186 121 L170 125 L60 124 Z", CHOCOLATE
    )
    edge = path(
        "M60 112 C46 109 30 113 34 123 L60 124 L170 125 L186 121 L204 124 C210 114 196 109 180 112", "none", INK, 2
    )
    return Drawing(
        "foot",
        sheet("a foot", piece(), skirt, edge),
        "A glossy piece that stands on a ragged skirt of chocolate, wider than the piece itself.",
    )


def _dull_patches():
    patches = path("M96 62 C104 48 128 46 138 58 C146 70 128 78 116 76 C104 78 90 74 96 62 Z", DULL)
    patches += path("M140 96 C146 84 164 86 168 100 C170 112 150 116 142 110 C136 106 136 102 140 96 Z", DULL)
    patches += path("M78 104 C82 96 96 96 98 106 C98 114 82 116 78 110 Z", DULL)
    marks = "".join(
        line([(x, y), (x + 9, y + 3)], "#a08a7c", 1.4)
        for x, y in ((104, 60), (116, 66), (122, 56), (146, 96), (152, 104), (84, 104))
    )
    return Drawing(
        "dull patches",
        sheet("dull patches", piece(patches, marks)),
        "A piece with gloss on it, and three sharply bounded patches that are matt and slightly rough.",
    )


def _cap_off():
    lid = path("M58 132 L176 118 L179 127 L61 141 Z", CHOCOLATE, INK, 2)
    shell = path("M60 116 C60 56 84 26 120 26 C156 26 180 54 180 106 L168 107 L72 115 Z", CHOCOLATE, INK, 2)
    core = path("M72 112 C72 66 90 40 120 40 C150 40 168 62 168 104 Q120 116 72 112 Z", GANACHE, INK, 1)
    smear = path("M60 117 L74 113 L76 120 L62 122 Z", GANACHE, INK, 1)
    smear += path("M166 107 L181 105 L181 112 L168 114 Z", GANACHE, INK, 1)
    return Drawing(
        "cap comes off",
        sheet("cap comes off", f'<g transform="translate(0 -14)">{lid}{shell}{core}{smear}</g>'),
        "A piece cut open: the cap has parted from the shell all round; filling lies smeared on the rim between the two.",
    )


SHELLS = tuple(draw() for draw in (_thin_rim, _thick_bottom, _hollow, _sunk, _foot, _dull_patches, _cap_off))
