"""A cavity cut through its middle, to scale: mould, shell, filling, headspace and cap."""

from functools import partial

import numpy as np
from matplotlib.patches import Patch, Polygon, Rectangle
from matplotlib.ticker import FuncFormatter, MultipleLocator

from pastrylab.ground.roots import bisect
from pastrylab.page.guess import Met
from pastrylab.page.picture import INK, Picture
from pastrylab.trade import moulds

SHAPES = {
    "dome": moulds.dome.floats,
    "cone": moulds.cone.floats,
    "bar, twice as long as wide": lambda across, deep: moulds.bar.floats(2 * across, across, deep),
    "rounded bar, twice as long as wide": lambda across, deep: moulds.rounded_bar.floats(
        2 * across, across, deep, min(across, deep) / 3
    ),
}
_CHOCOLATE, _CAP, _FILLING, _MOULD = "#6b4028", "#9c7a63", "#f2e2c4", "#dbe6ec"
_OPEN = 22.0  # mm, half of what the picture shows
_DEEP = 27.0


def cavity_of(shape, across, depth):
    """The Cavity a bench speaks of; lengths in mm."""
    return SHAPES[shape](across, depth)


class Section(Picture):
    """A mould in section. One millimetre is as long everywhere, and in every setting."""

    def __init__(self):
        super().__init__(height=5.0)
        axes = self.axes
        axes.set_title("A cavity cut through its middle", fontsize=14, loc="left")
        axes.set(xlim=(-_OPEN - 3, _OPEN + 3), ylim=(_DEEP + 4, -3), aspect="equal")
        style = {"closed": True, "edgecolor": INK, "lw": 1.2}
        axes.add_patch(
            Rectangle(
                (-_OPEN - 3, 0), 2 * _OPEN + 6, _DEEP + 4, facecolor=_MOULD, edgecolor="#9aa7b0", hatch="///", lw=0
            )
        )
        self._ruled = None
        self._rule("metric")
        nothing = np.zeros((3, 2))
        self._shell = axes.add_patch(Polygon(nothing, facecolor=_CHOCOLATE, **style))
        self._inside = axes.add_patch(Polygon(nothing, facecolor="#ffffff", **style))
        self._filling = axes.add_patch(Polygon(nothing, facecolor=_FILLING, hatch="..", **style))
        self._cap = axes.add_patch(Polygon(nothing, facecolor=_CAP, hatch="xx", **style))
        axes.axhline(0, color=INK, lw=1, ls="--")
        shown = (
            ("mould", _MOULD, "///"),
            ("shell", _CHOCOLATE, ""),
            ("cap", _CAP, "xx"),
            ("filling", _FILLING, ".."),
            ("air", "#ffffff", ""),
        )
        handles = [Patch(facecolor=c, edgecolor=INK, hatch=h, label=word) for word, c, h in shown]
        self.figure.legend(handles=handles, loc="outside lower center", ncols=5, frameon=False, fontsize=11)

    def update(self, *, shape, across, depth, wall, headspace, cap, system="metric"):
        """Lengths in mm, shape one of SHAPES. Returns the sentence. Raises StudentError where no filling finds room."""
        cavity = cavity_of(shape, across, depth)
        closed = min(cap, headspace)
        made = moulds.piece.floats(cavity, wall, headspace)
        air = made.cap_ml - moulds.piece.floats(cavity, wall, closed).cap_ml
        solid = cavity.solid
        deep = np.unique(np.append(depth * np.sin(np.linspace(0, np.pi / 2, 161)), depth - wall))
        self._rule(system)
        self._shell.set_xy(_cut(solid, deep, 0.0, 0.0, depth))
        self._inside.set_xy(_cut(solid, deep, wall, 0.0, headspace))
        self._filling.set_xy(_cut(solid, deep, wall, headspace, depth))
        self._cap.set_xy(_cut(solid, deep, wall, 0.0, closed))
        self.alt = " ".join(self._says(cavity, made, air, headspace, cap, system))
        return self.alt

    def _rule(self, system):
        """Both axes in millimetres or in inches."""
        if system == self._ruled:
            return
        self._ruled = system
        metric = system == "metric"
        for axis in (self.axes.xaxis, self.axes.yaxis):
            axis.set_major_locator(MultipleLocator(5 if metric else 25.4 / 4))
            room = 4 if axis is self.axes.yaxis else 0  # the layout is worked out once, and 0.75 must fit into it later
            axis.set_major_formatter(FuncFormatter(partial(_ruled, size=1 if metric else 25.4, room=room)))
        word = "mm" if metric else "inches"
        self.axes.set(xlabel=f"{word} from the middle", ylabel=f"{word} below the rim")

    def result_of_guess(self, guess, *, shape, across, depth, wall, headspace, cap, system):
        """A guess in percent of the piece's weight, at the wall that would make it so; the cap stays as it is."""
        cavity = cavity_of(shape, across, depth)

        def share(wall):
            made = moulds.piece.floats(cavity, wall, headspace)
            return 100 * float((made.chocolate / made.mass).m_as(""))

        thin, thick = 0.01, 0.9 * min(across / 2, depth) - headspace
        if guess <= share(thin):
            then = f"The cap alone is {share(thin):.0f} % of it."
            return Met(share(wall), then, ())
        if guess >= share(thick):
            return Met(share(wall), "So much chocolate leaves next to no filling.", ())
        guessed = bisect(lambda at: share(float(at)) - guess, thin, thick)
        then = f"At {guess:g} % the wall would be {self.write(guessed, 'mm', system, 2)}."
        return Met(share(wall), then, ((0.0, depth - guessed),))

    def _says(self, cavity, made, air, headspace, cap, system):
        """What is in the cavity, in sentences."""
        grams = made.shell_g + made.cap_g * (1 - air / made.cap_ml)
        digits = 3 if system == "metric" else 2  # an ounce is a large thing to weigh a shell in

        def each(amount, unit):
            return self.write(amount, unit, system, digits)

        yield (
            f"The cavity holds {each(cavity.ml, 'mL')}: a shell of {each(made.shell_g, 'g')}, {each(made.filling_ml, 'mL')} of "
            f"filling and {each(made.cap_ml, 'mL')} of headspace for the cap. A filling of 1.1 g/mL weighs "
            f"{each(made.filling_g, 'g')}; chocolate is {100 * grams / (grams + made.filling_g):.0f} % of the piece."
        )
        if air > 0:
            yield (
                f"A cap of {self.write(cap, 'mm', system, 2)} does not fill the headspace: "
                f"{self.write(air, 'mL', system, 2)} of air stay under it, where it sinks or cracks."
            )
        elif cap > headspace:
            yield (
                f"A cap of {self.write(cap, 'mm', system, 2)} finds no room: the filling ends "
                f"{self.write(headspace, 'mm', system, 2)} below the rim, and the scraper takes the rest."
            )


def _ruled(mm, _place, size, room):
    """A length in millimetres as a ruler shows it, in steps of `size` millimetres."""
    return f"{abs(mm) / size:g}".rjust(room, "\u2007")


def _cut(solid, deep, wall, top, bottom):
    """The outline of what lies between two levels inside a wall, as points (x, depth)."""
    levels = np.unique(np.clip(deep, top, bottom))
    half = np.array([solid.half_width(float(level), wall) for level in levels])
    kept = half > 0
    levels, half = levels[kept], half[kept]
    return np.column_stack([np.append(half, -half[::-1]), np.append(levels, levels[::-1])])
