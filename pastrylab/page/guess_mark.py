"""A guess marked on a picture: a line or a point, and the words beside it, within the axes."""

import numpy as np

from pastrylab.page import narrow

GUESS = "#5b2a86"


class GuessMark:
    """The artists that show a guess: diamonds or one line, and the words."""

    _EDGE = 0.025  # of the axes: so far inside them stands what lies outside
    _STYLE = {"mfc": "#ffffff", "mec": GUESS, "mew": 2, "color": GUESS, "ms": 9, "lw": 2, "ls": "-.", "zorder": 5}
    _ARROWS = {
        (-1, 0): "←",
        (1, 0): "→",
        (0, -1): "↓",
        (0, 1): "↑",
        (1, 1): "↗",
        (1, -1): "↘",
        (-1, 1): "↖",
        (-1, -1): "↙",
    }

    def __init__(self, picture):
        self._axes = axes = picture.axes
        self._height, self._above, self._placed = picture.guess_word_at, picture.guess_word_above, None
        inside = {"transform": axes.transAxes, "clip_on": False}
        (self._mark,) = axes.plot([], [], scalex=False, scaley=False, **inside, **self._STYLE)
        points = narrow.letters(11) if picture.narrow and picture._settled else 11
        box = {"facecolor": "white", "alpha": 0.85, "lw": 0, "pad": 1}
        self._word = axes.text(0, 0, "", fontsize=points, color=GUESS, bbox=box, zorder=6, **inside)
        for artist in (self._mark, self._word):
            artist.set_in_layout(False)

    def place(self, at):
        """Put the mark at points of the axes as their limits now are; nothing is touched that stands there already."""
        placed = [self._share(x, y) for x, y in at]
        if placed == self._placed:
            return
        self._placed = placed
        near = [
            tuple(side if side is None else min(max(side, self._EDGE), 1 - self._EDGE) for side in p) for p in placed
        ]
        line = len(near) == 1 and None in near[0]
        ends = [(0, 1) if side is None else (side, side) for side in near[0]] if line else zip(*near, strict=True)
        self._mark.set_data(*(ends if near else ((), ())))
        self._mark.set(linestyle="-." if line else "", marker="" if line else "D")
        self._write(placed[0], near[0]) if near else self._word.set_text("")

    def _write(self, share, near):
        """The words beside the first point, with an arrow where it lies outside."""
        arrow = self._ARROWS.get(tuple(0 if side is None else (side > 1) - (side < 0) for side in share), "")
        x, y = (self._height if side is None else side for side in near)
        right, top = x > 0.6, y > 0.85
        self._word.set_text(f"your guess {arrow}".strip())
        rise, va = (0, "center") if not self._above else (-0.02, "top") if top else (0.025, "bottom")
        self._word.set(x=x - 0.02 if right else x + 0.02, y=y + rise, ha="right" if right else "left", va=va)

    def _share(self, x, y):
        """A point as shares of the axes' sides: 0 to 1 within them."""
        with np.errstate(divide="ignore", invalid="ignore"):
            spot = self._axes.transScale.transform((1 if x is None else x, 1 if y is None else y))
        low, high = self._axes.transScale.transform(self._axes.viewLim.get_points())
        shares = np.nan_to_num((spot - low) / (high - low), nan=-1, neginf=-1, posinf=2)
        return tuple(None if side is None else float(share) for side, share in zip((x, y), shares, strict=True))
