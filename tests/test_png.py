"""Our PNG read back by Pillow, and a legend that is put back where it lay."""

import io

import numpy as np
import pytest
from PIL import Image

from pastrylab.page.picture import Picture
from pastrylab.page.png import png_bytes


@pytest.mark.parametrize(("height", "width", "depth"), [(1, 1, 4), (1, 7, 3), (9, 1, 4), (44, 72, 4), (37, 53, 3)])
def test_pillow_reads_the_pixels_that_were_written(height, width, depth):
    pixels = np.random.default_rng(height).integers(0, 256, (height, width, depth), np.uint8)
    with Image.open(io.BytesIO(png_bytes(pixels, 180))) as image:
        image.load()  # checks each chunk's CRC
        assert (image.format, image.mode, image.size) == ("PNG", "RGB", (width, height))
        assert np.array_equal(np.asarray(image), pixels[..., :3])
        # Pixels per metre are whole numbers: 180 of an inch come back as 179.9979 or so.
        assert image.info["dpi"] == pytest.approx((180, 180), abs=0.02)


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
