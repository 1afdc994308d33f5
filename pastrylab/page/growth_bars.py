"""An estimated water activity drawn against where each group of organisms can grow."""

import textwrap

from pastrylab.ground import careful
from pastrylab.page.picture import BAND, INK, LINE, Picture
from pastrylab.trade import keeping

_CAN, _CANNOT = "#e2a58f", "#dfe5ea"


class GrowthBars(Picture):
    """An estimated water activity with its error, against where each group of organisms can grow."""

    def __init__(self):
        super().__init__(height=6.6)
        axes, limits = self.axes, keeping.GROWTH_LIMITS
        axes.set_title("What can grow, and where the estimate lies", fontsize=14, loc="left", pad=22)
        axes.set_xlabel("water activity")
        self._bars, self._doubts = [], []
        for row, limit in enumerate(limits):
            (bar,) = axes.barh(row, 1 - limit.high, left=limit.high, height=0.62, color=_CANNOT, edgecolor="#777777")
            (doubt,) = axes.barh(
                row,
                limit.high - limit.low,
                left=limit.low,
                height=0.62,
                color="white",
                edgecolor="#777777",
                hatch="////",
            )
            self._bars.append(bar)
            self._doubts.append(doubt)
        axes.set_yticks(range(len(limits)), [textwrap.fill(limit.organism, 25) for limit in limits])
        axes.tick_params(axis="y", labelsize=11, length=0)
        self._band = axes.axvspan(0.8, 0.9, facecolor=BAND, alpha=0.45, edgecolor=INK, lw=1.2)
        self._line = axes.axvline(0.85, color=LINE, lw=2.5)
        self._label = axes.text(
            0.85, 1.01, "estimate", transform=axes.get_xaxis_transform(), ha="center", fontsize=11, color=LINE
        )
        axes.set(xlim=(0.55, 1.0), ylim=(len(limits) - 0.4, -0.6))

    def show(self, estimate, also=""):
        """Draw an Estimate. Returns the sentence: the estimate, what can grow at its high end, notes; the whole caution
        stands below the picture."""
        can = keeping.growth(estimate).can_grow
        for limit, bar, doubt, label in zip(
            keeping.GROWTH_LIMITS, self._bars, self._doubts, self.axes.get_yticklabels(), strict=True
        ):
            grows = limit in can
            bar.set_facecolor(_CAN if grows else _CANNOT)
            doubt.set_facecolor(_CAN if grows else "white")
            if label.get_fontweight() != (weight := "bold" if grows else "normal"):
                label.set_fontweight(weight)
                self.renew()
        self._band.set(x=estimate.low, width=estimate.high - estimate.low)
        self._line.set_xdata([estimate.value] * 2)
        self._label.set(x=estimate.value, text=f"estimate {careful.written_up(estimate.value)}")
        who = (
            f"At its high end {len(can)} of {len(self._bars)} groups below can grow, given warmth and time, "
            f"{max(can, key=lambda limit: limit.low).organism} among them."
            if can
            else "At its high end none of the groups below grows."
        )
        self.alt = " ".join([estimate.sentence, who, *estimate.notes, *([also] if also else []), keeping.IN_SHORT])
        return self.alt
