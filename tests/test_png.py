"""The pictures' own PNG, read back by a library that others wrote."""

import io

import numpy as np
import pytest
from PIL import Image

from pastrylab.page.png import png_of


@pytest.mark.parametrize(("height", "width", "colours"), [(1, 1, 3), (3, 5, 3), (7, 4, 4), (440, 720, 4)])
def test_every_pixel_comes_back(height, width, colours):
    pixels = np.random.default_rng(4).integers(0, 256, (height, width, colours), dtype=np.uint8)
    with Image.open(io.BytesIO(png_of(pixels, 100))) as image:
        image.load()  # every chunk's check sum is looked at
        assert image.format == "PNG" and image.mode == "RGB" and image.size == (width, height)
        assert image.info["dpi"] == pytest.approx((100, 100), abs=0.02)
        assert np.array_equal(np.asarray(image), pixels[:, :, :3])


def test_an_even_surface_takes_few_bytes():
    assert len(png_of(np.full((440, 720, 4), 255, np.uint8), 100)) < 10_000
