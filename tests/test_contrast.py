"""Colours of figures against the white they stand on (WCAG 2.2: 4.5 to 1 for text, 3 to 1 for what carries meaning)."""

import importlib
import inspect
import pkgutil

import pytest
from matplotlib.axis import Tick
from matplotlib.colors import to_rgba
from matplotlib.lines import Line2D
from matplotlib.text import Text

from pastrylab import course
from pastrylab.page.picture import Picture


def pictures():
    """Every figure of every lesson, in whatever module of its folder it stands."""
    for info in pkgutil.walk_packages(course.__path__, f"{course.__name__}."):
        module = importlib.import_module(info.name)
        for name, kind in inspect.getmembers(module, inspect.isclass):
            if issubclass(kind, Picture) and kind.__module__ == module.__name__:
                yield pytest.param(kind, id=f"{info.name.split('.')[2]}.{name}")


def on_white(colour, alpha=None):
    """Contrast of a colour, as it looks on white, to white (WCAG 2.2, definitions of contrast ratio and luminance)."""
    *rgb, own = to_rgba(colour)
    own *= 1 if alpha is None else alpha
    parts = [own * part + 1 - own for part in rgb]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 1.05 / (sum(w * part for w, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True)) + 0.05)


def test_the_measure_itself(outside):
    source = (
        "WCAG 2.2, definition of contrast ratio: black on white 21 to 1; understanding SC 1.4.3: #767676 is the limit"
    )
    outside(quantity="contrast, black on white", expected=21, got=on_white("black"), tolerance=0.001, source=source)
    outside(
        quantity="contrast, #767676 on white", expected=4.54, got=on_white("#767676"), tolerance=0.01, source=source
    )


@pytest.mark.parametrize("kind", list(pictures()))
def test_lines_marks_and_words_stand_out(kind):
    figure = kind().figure
    grid = {id(tick.gridline) for tick in figure.findobj(Tick)}
    lines = [one for one in figure.findobj(Line2D) if id(one) not in grid]
    assert lines
    for line in lines:
        colours = [line.get_markeredgecolor()] if line.get_linestyle() == "None" else [line.get_color()]
        assert on_white(colours[0], line.get_alpha()) >= 3, (line.get_label(), colours)
    for text in figure.findobj(Text):
        assert on_white(text.get_color(), text.get_alpha()) >= 4.5, text.get_text()
