"""What is in the bowl, mould by mould: each is filled to the brim and tipped back, until the order is cast or the bowl ends."""

import math
from dataclasses import replace

from matplotlib.ticker import MaxNLocator

from pastrylab.page.picture import HABIT, INK, LINE, LOST, Picture, end_of_axis
from pastrylab.trade import moulds
from pastrylab.trade.weighing import us_mass

# One fill of each mould: cavity, how many, headspace. Invented for the Larkmoor Teaching Kitchen.
KINDS = {
    "24 half balls, 32 mm across": (moulds.hemisphere("32 mm"), 24),
    "21 domes, 36 mm across, 16 mm deep": (moulds.dome("36 mm", "16 mm"), 21),
    "32 cones, 26 mm across, 22 mm deep": (moulds.cone("26 mm", "22 mm"), 32),
    "6 bars, 110 by 45 mm, 8 mm deep": (moulds.bar("110 mm", "45 mm", "8 mm"), 6),
}
HEADSPACE = 2.0  # mm
STICKS = 8.0  # g on scraper and tray at each mould, invented
CAPS = {
    "shells alone": "none",
    "shells, then caps": "after",
    "capped one by one": "in turn",
}
_POUND = 453.59237  # g, NIST Handbook 44


def mould_of(kind, wall):
    """(Mould, Piece) of a kind of mould with shells of that wall (mm)."""
    cavity, cavities = KINDS[kind]
    made = moulds.piece.floats(cavity, wall, HEADSPACE)
    return moulds.mould.floats(cavity.ml, made.shell_g, made.cap_g, cavities, STICKS), made


class BowlDay(Picture):
    """A tooth for every mould: down as it is filled, up again as it is tipped."""

    def __init__(self):
        super().__init__(height=4.9)
        axes = self.axes
        axes.set_title("In the bowl, mould by mould", fontsize=14, loc="left")
        axes.set_xlabel("mould")
        self._rest = axes.axhspan(
            0, 1, facecolor=HABIT, edgecolor="#8a8a8a", hatch="//", lw=0, label="no ladle reaches it"
        )
        (self._teeth,) = axes.plot([], [], color=LINE, lw=2.2, label="in the bowl")
        (self._short,) = axes.plot([], [], color=LOST, lw=2.2, ls="--", label="what a full mould would take")
        (self._end,) = axes.plot([], [], "X", ms=11, mfc="white", mec=LOST, mew=2, label="the bowl ends")
        (self._need,) = axes.plot([], [], color=INK, lw=1.4, ls=":", label="must be in it at the start")
        self.figure.legend(loc="outside lower center", ncols=2, frameon=False, fontsize=11)
        axes.xaxis.set_major_locator(MaxNLocator(integer=True))

    def update(self, *, kind, caps, pieces, rejects, wall, bowl, rest, system="metric"):
        """Good pieces, rejects as a share, wall in mm, chocolate and dead rest in g; caps: one of CAPS.

        Returns the sentence. Raises StudentError as `moulds.piece` does.
        """
        one, _made = mould_of(kind, wall)
        order = moulds.fills.floats(pieces, rejects, KINDS[kind][1])
        need = moulds.need.floats(one, order.count, rest, caps != "none", caps == "in turn")
        if caps == "in turn":  # a mould takes its caps out of the bowl before the next is filled
            one = replace(one, shells=one.shells + one.caps, caps=0.0)
        day = moulds.from_bowl.floats(bowl, one, order.count, rest)
        self._draw(day, one, need, order.count, bowl, rest, 1000.0 if system == "metric" else _POUND)
        self.axes.set_ylabel("chocolate, kg" if system == "metric" else "chocolate, lb")
        self.alt = " ".join(self._says(day, one, need, order, caps, rest, system))
        return self.alt

    def _draw(self, day, one, need, fills, bowl, rest, per):
        """Move all artists; per: grams in a unit of the upright axis."""
        x, y = [0.5], [bowl / per]
        for cast in day.casts:
            x += [cast.number, cast.number + 0.5]
            y += [(cast.before - cast.poured) / per, cast.after / per]
        self._teeth.set_data(x, y)
        ends = [(day.dry - 0.5, day.dry), (day.left / per, (day.left - one.full) / per)] if day.dry else [(), ()]
        self._short.set_data(*ends)
        self._end.set_data(ends[0][:1], ends[1][:1])
        self._need.set_data([0.5, fills + 0.5], [need.in_bowl / per] * 2)
        self._rest.set(y=0, height=rest / per)
        lowest = min(0, *ends[1]) if ends[1] else 0
        self.axes.set(xlim=(0.5, fills + 0.5), ylim=(1.1 * lowest, end_of_axis(1.05 * max(bowl, need.in_bowl) / per)))

    @staticmethod
    def _says(day, one, need, order, caps, rest, system):
        """Fills, what leaves and what must be in the bowl, and how it ends, in sentences."""

        def mass(grams):
            return f"{grams:.0f} g" if system == "metric" else us_mass(grams)

        step = 1.0 if system == "metric" else _POUND / 160  # what must be in it is never rounded down
        wanted = step * math.ceil(need.in_bowl / step - 1e-6)

        yield (
            f"{order.count} fills, {order.cast} pieces cast. A full mould takes {mass(one.full)}, and {mass(one.stays)} of it "
            f"do not come back. So {mass(need.leaves)} leave the bowl, and {mass(wanted)} must be in it at the start; "
            f"what decides is {need.decides}."
        )
        if day.dry:
            yield (
                f"Yours ends at mould {day.dry} of {order.count}: {mass(day.left)} are left in it, but {mass(one.full + rest)} "
                "would have to be there."
            )
        elif caps == "after" and day.capped < order.count:
            yield f"All shells are cast; what is left, {mass(day.left)}, closes {day.capped} of {order.count} moulds."
        else:
            back = day.left - one.caps * order.count * (caps == "after")
            yield f"Yours casts {'' if caps == 'none' else 'and closes '}all of them, and {mass(back)} come back."
