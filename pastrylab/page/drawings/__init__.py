"""Drawings of what a cook must recognise by eye: smears, and pieces, fillings and pans that came out wrong.

Each is an SVG of a few shapes, drawn by a function, with a word in it and an alt text that says what is to be seen.
"""

from pastrylab.page.drawings.fillings import FILLINGS
from pastrylab.page.drawings.pieces import PIECES
from pastrylab.page.drawings.shapes import Drawing
from pastrylab.page.drawings.shells import SHELLS
from pastrylab.page.drawings.smears import SMEARS
from pastrylab.page.drawings.stored import STORED
from pastrylab.page.drawings.syrups import SYRUPS

__all__ = ["DEFECTS", "SMEARS", "Drawing", "file_name"]

DEFECTS = {drawing.name: drawing for drawing in (*PIECES, *SHELLS, *FILLINGS, *SYRUPS, *STORED)}


def file_name(drawing):
    """The file in lessons/pictures that a lesson's table of defects shows.

    >>> file_name(DEFECTS["fat bloom"])
    'fat-bloom.svg'
    """
    return f"{drawing.name.replace(' ', '-')}.svg"
