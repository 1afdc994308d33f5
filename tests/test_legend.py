"""A legend that is put back where it lay."""

import io

import numpy as np
import pytest
from PIL import Image

from pastrylab.page.picture import Picture


def crossed():
    """A picture whose curve can run under the legend, with what makes it."""
    picture = Picture()
    picture.axes.set(xlim=(0, 1), ylim=(0, 1))
    (curve,) = picture.axes.plot([], [], lw=3, label="bowl")
    legend = picture.axes.legend(loc="upper right")
    return picture, curve, legend


def whole(height, word):
    picture, curve, legend = crossed()
    legend.get_texts()[0].set_text(word)
    curve.set_data([0, 1], [height, height])
    picture.settle()
    picture.canvas.draw()
    return np.asarray(picture.canvas.buffer_rgba())[..., :3]


@pytest.fixture
def drawings(monkeypatch):
    from matplotlib.legend import Legend

    found, draw = [], Legend.draw
    monkeypatch.setattr(Legend, "draw", lambda self, renderer: (found.append(self), draw(self, renderer))[1])
    return found


def test_a_legend_is_drawn_only_where_what_lies_under_it_changes(drawings):
    picture, curve, legend = crossed()
    moves = [(0.2, "bowl", None), (0.4, "bowl", None), (0.3, "bowl", False), (0.95, "bowl", True)]
    moves += [(0.94, "bowl", True), (0.3, "bowl", True), (0.31, "bowl", False), (0.31, "room", True)]
    for height, word, anew in moves:
        legend.get_texts()[0].set_text(word)
        curve.set_data([0, 1], [height, height])
        drawings.clear()
        with Image.open(io.BytesIO(picture.png())) as image:
            shown = np.asarray(image)
        if anew is not None:
            assert (legend in drawings) is anew, (height, word)
        assert np.array_equal(shown, whole(height, word)), (height, word)
