"""What every figure shares: built once; update(**values) moves its artists and returns the sentence it shows.

Values come in metric floats; `system` ("metric" or "US") only changes how axes and sentence are written.
"""

import io

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, MultipleLocator

from pastrylab.ground.units import Q, show, us_unit

INK, LINE, BAND, HABIT, LOST = "#222222", "#0b4f8a", "#f2c14e", "#d9d9d9", "#8c1c13"


class Picture:
    """A figure that is drawn again and again: artists are kept, the layout is worked out once."""

    def __init__(self, width=7.2, height=4.4):
        self.figure = Figure(figsize=(width, height), dpi=100, layout="constrained")
        self.canvas = FigureCanvasAgg(self.figure)
        self.axes = self.figure.add_subplot()
        self.axes.spines[["top", "right"]].set_visible(False)
        self.axes.tick_params(labelsize=12)
        self.axes.xaxis.label.set_size(12)
        self.axes.yaxis.label.set_size(12)
        self._settled = False
        self.alt = ""

    def png(self):
        """The picture as PNG bytes."""
        if not self._settled:
            self.canvas.draw()
            self.figure.set_layout_engine("none")
            self._settled = True
        out = io.BytesIO()
        # Not savefig, which draws everything twice once there has been a layout engine. Level 1 takes half the time of
        # the usual 6 and adds a twelfth to the bytes.
        self.canvas.print_png(out, pil_kwargs={"compress_level": 1})
        return out.getvalue()

    def write(self, quantity, unit, system="metric", digits=3):
        """A float with its metric unit as text in the system asked for."""
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
