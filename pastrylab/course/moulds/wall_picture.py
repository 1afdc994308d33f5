"""What stays on an upright wall when chocolate is tipped out: published stresses, and how far laboratories lie apart."""

from matplotlib.ticker import FuncFormatter

from pastrylab.page.picture import BAND, HABIT, INK, Picture
from pastrylab.trade.moulds import draining

_WANTED = (1.0, 2.0)  # mm, walls made by hand: from memory
_SLOPES = (("upright wall", 90), ("wall leaning 45°", 45))


class WallFilm(Picture):
    """A ring for each published stress and slope, on a bar as wide as laboratories differ on one chocolate."""

    def __init__(self):
        super().__init__(height=4.2)
        axes = self.axes
        axes.set_title("What a yield stress holds on a wall", fontsize=14, loc="left")
        axes.set_xlabel("film, mm (below: inches)")
        axes.xaxis.set_major_formatter(FuncFormatter(lambda mm, _: f"{mm:g}\n{mm / 25.4:.2f}"))
        low, high = _WANTED
        axes.axvspan(
            low, high, facecolor=HABIT, edgecolor="#8a8a8a", hatch="//", lw=0, label="walls made by hand, 1-2 mm"
        )
        self.films = {
            f"{kind},\n{words}": draining.film_by_yield(stress, slope=slope)
            for kind, (stress, _viscosity) in draining.EXAMPLES.items()
            for words, slope in _SLOPES
        }
        names, films = list(self.films), list(self.films.values())
        rows = range(len(films))
        axes.barh(
            rows,
            [film.high - film.low for film in films],
            left=[film.low for film in films],
            height=0.5,
            facecolor=BAND,
            edgecolor=INK,
            alpha=0.85,
            label="sevenfold: one chocolate in 23 laboratories",
        )
        axes.plot([film.mm for film in films], rows, "o", ms=9, mfc="white", mec=INK, mew=2, label="as published")
        axes.set_yticks(rows, names)
        axes.invert_yaxis()
        axes.set_xlim(0, 1.05 * max(film.high for film in films))
        self.figure.legend(loc="outside lower center", ncols=1, frameon=False, fontsize=11)

    def update(self, *, system="metric"):
        """Returns the sentence; all of it stands still."""
        milk, dark = (draining.film_by_yield(stress) for stress, _ in draining.EXAMPLES.values())
        self.alt = (
            f"On an upright wall the published stress of a milk chocolate holds {self.write(milk.mm, 'mm', system, 2)}, that of "
            f"a dark one {self.write(dark.mm, 'mm', system, 2)}. As far as laboratories differ on one and the same chocolate, "
            f"the milk one's film may be anything from {self.write(milk.low, 'mm', system, 2)} to "
            f"{self.write(milk.high, 'mm', system, 2)}. An illustration, and no sum for your mould: weigh the shells."
        )
        return self.alt
