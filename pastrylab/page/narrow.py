"""A figure made over for a narrow column: tall instead of wide, its letters large, its legend below, long words in lines."""

import textwrap

from matplotlib.text import Text
from matplotlib.transforms import ScaledTranslation

# Inches: at 315 pixels of a page, all that a telephone leaves, a letter of 9.1 points stands 11 pixels high.
WIDTH, DPI = 3.6, 180
_LETTERS = 0.84  # of 11, 12 and 14 points on a wide page
_OF_HEIGHT = 0.74
_TITLE, _ALONG, _UP = 39, 36, 28  # letters a line of a title, a label along the axis and one beside it has room for
_LEGEND_BELOW, _LEGEND_LINE = 0.42, 0.185


def size(height):
    """Width and height in inches of a figure that is `height` inches high on a wide page.

    >>> size(5.0)
    (3.6, 3.7)
    """
    return WIDTH, round(_OF_HEIGHT * height, 3)


def make_over(figure):
    """Letters and legends of a figure that has all its artists: once, before its layout is worked out. Returns what
    `wrap` needs: each title and label, with the number of letters its line has room for."""
    room = {}
    for axes in figure.axes:
        names = [len(line) for label in axes.get_yticklabels() for line in label.get_text().split("\n")]
        room[axes._left_title], room[axes.yaxis.label] = _TITLE, _UP
        room[axes.xaxis.label] = _ALONG - max(0, *names, 5) + 5
    wrap(room)
    lines = sum(_legend_below(axes) for axes in figure.axes)
    lines += sum(_one_column(figure, legend) for legend in figure.legends[:])
    if lines:
        width, height = figure.get_size_inches()
        figure.set_size_inches(width, height + _LEGEND_LINE * lines)
    _enlarge(figure)
    return room


def _enlarge(figure):
    """Letters, those of the ticks by their axis: ticks are made anew as a scale changes."""
    ticks = set()
    for axes in [one for part in figure.axes for one in (part, *part.child_axes)]:
        for axis in (axes.xaxis, axes.yaxis):
            labels = axis.get_ticklabels()
            ticks.update(labels)
            if labels:
                axis.set_tick_params(labelsize=letters(labels[0].get_size()))
    for text in figure.findobj(Text):
        if text not in ticks:
            text.set_fontsize(letters(text.get_size()))


def titles_to_the_edge(figure):
    """Begin titles where the figure begins, once its layout stands: long names beside an axis would push them out."""
    edge = 0.01 * figure.bbox.width
    for axes in figure.axes:
        box = axes.get_window_extent()
        if box.x0 < 0.6 * figure.bbox.width and not any(_left_of(other, box) for other in figure.axes):
            axes._left_title.set_x((edge - box.x0) / box.width)


def _left_of(axes, box):
    other = axes.get_window_extent()
    return other.x1 < box.x0 and other.y0 < box.y1 and box.y0 < other.y1


def letters(points):
    """The size of letters that have so many points on a wide page."""
    return points if points < 10.5 else _LETTERS * points


def wrap(room):
    """Break what is written round the axes where it is longer than its place, whatever was written last."""
    for text, most in room.items():
        written = text.get_text()
        if len(written) > most and "\n" not in written:
            text.set_text(textwrap.fill(written, most))


def _legend_below(axes):
    """Put an axes' legend under it, in one column; the number of its lines."""
    legend = axes.get_legend()
    if legend is None:
        return 0
    if legend._ncols > 1:
        labels = [text.get_text() for text in legend.get_texts()]
        legend = axes.legend(legend.legend_handles, labels, fontsize=legend.get_texts()[0].get_size(), frameon=False)
    label = 0.15 * axes.get_xlabel().count("\n")
    below = ScaledTranslation(0, -_LEGEND_BELOW - label, axes.figure.dpi_scale_trans)
    legend.set_loc("upper left")
    legend.set_bbox_to_anchor((-0.1, 0), axes.transAxes + below)
    legend.set_frame_on(False)
    return len(legend.get_texts())


def _one_column(figure, legend):
    """A figure's own legend, below it, in one column; the number of lines it gained."""
    labels, handles = [text.get_text() for text in legend.get_texts()], legend.legend_handles
    gained, points = len(labels) - -(-len(labels) // legend._ncols), legend.get_texts()[0].get_size()
    legend.remove()
    figure.legend(handles, labels, loc="outside lower center", ncols=1, frameon=False, fontsize=points)
    return gained
