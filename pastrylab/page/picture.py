"""What every figure shares: built once; update(**values) moves its artists and returns the sentence it shows.

Values come in metric floats; `system` ("metric" or "US") only changes how axes and sentence are written.
"""

import io
import math
import threading

import numpy as np
from matplotlib.axes import Axes
from matplotlib.axis import Axis
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.legend import Legend
from matplotlib.patches import Rectangle
from matplotlib.spines import Spine
from matplotlib.ticker import FuncFormatter, MultipleLocator
from PIL import Image

from pastrylab.ground.units import Q, show, us_unit
from pastrylab.page import narrow
from pastrylab.page.guess_mark import GuessMark

INK, LINE, BAND, HABIT, LOST = "#222222", "#0b4f8a", "#f2c14e", "#d9d9d9", "#8c1c13"
# JupyterLab may run the messages of two controls at once, each on a thread of its own; a figure bears one.
ONE_AT_A_TIME = threading.RLock()


class Picture:
    """A figure that is drawn again and again: artists are kept, the layout is worked out once.

    What stays from one setting to the next is drawn once and kept as pixels: a change draws only what moved since, and
    what lies over it. Whatever changes axes, labels or ticks draws all anew.
    """

    guess_word_at = 0.97  # how high the words stand beside a guess that is a line
    guess_word_above = True  # whether they stand above a point, or beside it

    page_is_narrow = False  # as the page said last; a figure made from now on is drawn for it

    def __new__(cls, *given, **named):
        made = super().__new__(cls)
        made._given = given, named
        return made

    def __init__(self, width=7.2, height=4.4):
        self.narrow = Picture.page_is_narrow
        size, dpi = (narrow.size(height), narrow.DPI) if self.narrow else ((width, height), 100)
        self.figure = Figure(figsize=size, dpi=dpi, layout="constrained")
        self.canvas = FigureCanvasAgg(self.figure)
        self.axes = self.figure.add_subplot()
        self.axes.spines[["top", "right"]].set_visible(False)
        self.axes.tick_params(labelsize=12)
        self.axes.xaxis.label.set_size(12)
        self.axes.yaxis.label.set_size(12)
        self._settled = False
        self._ground, self._frame, self._moving, self._drawn_again, self._shapes = None, None, set(), [], {}
        self._legends = {}
        self._guess = None
        self.alt = ""

    def fit(self):
        """Make the figure anew where the page has become narrow, or wide, since it was made; True where it has: `update`
        it then."""
        if self.narrow == Picture.page_is_narrow:
            return False
        given, named = self._given
        self.__init__(*given, **named)
        return True

    def settle(self):
        """Work the layout out, with the labels that stand there now, once and for all."""
        if not self._settled:
            if self.narrow:
                self._room_of_words = narrow.make_over(self.figure)
            self.figure.get_layout_engine().execute(self.figure)
            self.figure.set_layout_engine("none")
            if self.narrow:
                narrow.titles_to_the_edge(self.figure)
            self._settled = True

    def renew(self):
        """Draw all anew next time: something changed that no artist of a figure tells of."""
        self._ground = None

    def png(self):
        """The picture as PNG bytes, opaque."""
        self.settle()
        if self.narrow:
            narrow.wrap(self._room_of_words)
        self._catch_up()
        out = io.BytesIO()
        # Level 1 takes half the time of the usual 6 and adds a twelfth to the bytes; nothing shines through.
        size, pixels = self.canvas.get_width_height(), self.canvas.buffer_rgba()
        image = Image.frombuffer("RGBA", size, pixels, "raw", "RGBA", 0, 1).convert("RGB")
        image.save(out, "png", compress_level=1, dpi=(self.figure.dpi, self.figure.dpi))
        return out.getvalue()

    def _catch_up(self):
        """Bring the canvas up to date."""
        drawn = self._frame is not None  # before it is, all are new, and none has moved
        moved = {artist for artist in self._artists() if self._has_moved(artist)} if drawn else set()
        frame = [_frame_of(axes, moved | self._moving) for axes in self._all_axes()]
        if self._ground is None or frame != self._frame or not moved <= self._moving:
            self._moving = moved | self._moving if frame == self._frame else moved
            self._frame = [_frame_of(axes, self._moving) for axes in self._all_axes()]
            self._drawn_again = [artist for axes in self.figure.axes for artist in _over(axes, self._moving)]
            self._keep_ground()
        else:
            self.canvas.restore_region(self._ground)
        for artist in self._drawn_again:
            if isinstance(artist, Legend):
                self._lay_legend(artist)
            else:
                artist.draw(self.canvas.renderer)

    def _lay_legend(self, legend):
        """Draw a legend. Over the very pixels it was last drawn on it comes out the same, and is only put there: its
        words take longer than all curves."""
        parts = legend, *legend.get_texts(), *legend.legend_handles
        place, below, over = self._legends.get(legend, (None, None, None))
        pixels = np.asarray(self.canvas.buffer_rgba())
        if place and not any(part.stale for part in parts) and np.array_equal(pixels[place], below):
            pixels[place] = over
            return
        place = self._around(legend)
        below = pixels[place].copy()
        legend.draw(self.canvas.renderer)
        self._legends[legend] = place, below, pixels[place].copy()

    def _around(self, legend):
        """The rows and columns of pixels a legend lies on, with some to spare."""
        box = legend.get_window_extent(self.canvas.renderer).padded(4)
        height = self.canvas.get_width_height()[1]
        left, right, top, bottom = (max(0, int(side)) for side in (box.x0, box.x1, height - box.y1, height - box.y0))
        return slice(top, bottom + 1), slice(left, right + 1)

    def _keep_ground(self):
        """Draw what does not move, and keep it."""
        shown = {artist: artist.get_animated() for artist in self._drawn_again}
        for artist in self._drawn_again:
            artist.set_animated(True)
        self.canvas.draw()
        for artist, animated in shown.items():
            artist.set_animated(animated)
        self._legends = {}
        self._ground = self.canvas.copy_from_bbox(self.figure.bbox)

    def _all_axes(self):
        return [one for axes in self.figure.axes for one in (axes, *axes.child_axes)]

    def _artists(self):
        return [artist for axes in self.figure.axes for artist in axes.get_children() if _can_move(artist)]

    def _has_moved(self, artist):
        """Whether an artist was touched since it was last drawn; a patch that got the same shape again was not."""
        if not artist.stale:
            return False
        if not isinstance(artist, Rectangle):
            return True
        shape = artist.get_bbox().bounds, artist.get_facecolor(), artist.get_hatch(), artist.get_visible()
        before, self._shapes[artist] = self._shapes.get(artist), shape
        return shape != before

    def mark_guess(self, at):
        """Mark a guess, in a shape of its own and with its word: at points (x, y) of `axes`, None for the whole length of
        one. A place that lies outside stands at the edge with an arrow. No points: no mark.
        """
        if self._guess is None and at:
            self._guess = GuessMark(self)
        if self._guess:
            self._guess.place(at)

    def write(self, quantity, unit, system="metric", digits=3):
        """A float with its metric unit as text in the system asked for.

        >>> Picture().write(31.5, "degC"), Picture().write(31.5, "degC", "US")
        ('31.5 °C', '88.7 °F')
        """
        quantity = Q(float(quantity), unit)
        return show(quantity if system == "metric" else quantity.to(us_unit(unit)), digits)

    def temperature_axis(self, axis, system, step=5, us_step=10):
        """Label an axis that holds degC in °C or °F, with round ticks in either."""
        if system == "metric":
            axis.set_major_locator(MultipleLocator(step))
            # As wide as three digits: the layout is worked out once, and °F must fit into it later.
            axis.set_major_formatter(FuncFormatter(lambda value, _: f"{value:.0f}".rjust(3, "\u2007")))
        else:
            axis.set_major_locator(MultipleLocator(us_step / 1.8, offset=-32 / 1.8))
            axis.set_major_formatter(FuncFormatter(lambda value, _: f"{1.8 * value + 32:.0f}"))


def end_of_axis(reached):
    """Where an axis from 0 ends that must hold `reached`: in wide steps, so that it stands still while a slider is moved a
    little, and what grows is seen to grow.

    >>> [end_of_axis(reached) for reached in (5.3, 980, 1000, 1001, 0)]
    [6.0, 1000.0, 1000.0, 1250.0, 1.0]
    """
    if reached <= 0:
        return 1.0
    ten = 10.0 ** math.floor(math.log10(reached))
    return next(float(step * ten) for step in (1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10) if step * ten >= reached)


def _can_move(artist):
    return not isinstance(artist, (Axis, Axes, Spine, Legend))


def _frame_of(axes, moving):
    """What a change of redraws all: limits, words and ticks round the axes, and an inset that something moves across."""
    axis = [(a.get_major_locator(), a.get_major_formatter(), a.label.get_text()) for a in (axes.xaxis, axes.yaxis)]
    return (
        axes.viewLim.frozen().bounds,
        axes.get_title("left"),
        axis,
        [_crossed(one, moving) for one in axes.child_axes],
    )


def _crossed(inset, moving):
    box = inset.get_window_extent().padded(40)  # its ticks and title
    return any(artist.get_window_extent().overlaps(box) for artist in moving)


def _over(axes, moving):
    """What is drawn at every change, in the order of drawing: all that moves in these axes, and what lies over it."""
    order = sorted(
        (artist for artist in axes.get_children() if artist is not axes.patch),
        key=lambda artist: artist.zorder,
    )
    first = next((at for at, artist in enumerate(order) if artist in moving), len(order))
    return [artist for artist in order[first:] if not _beside(artist, axes, moving)]


def _beside(artist, axes, moving):
    """Whether nothing that moves can meet it: ticks without a grid and titles lie outside what curves are cut to."""
    if isinstance(artist, Axis):
        return not any(line.get_visible() for line in artist.get_gridlines()[:1])
    if isinstance(artist, Axes):
        return not _crossed(artist, moving)
    return artist in (axes.title, axes._left_title, axes._right_title)
