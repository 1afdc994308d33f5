"""Figures of lesson 05: an estimate against growth limits, a reading against the Food Code, the model against measurements."""

import numpy as np
from matplotlib.patches import Rectangle

from pastrylab.ground import careful
from pastrylab.ground.reference import measured
from pastrylab.ground.units import Q
from pastrylab.page.growth_bars import GrowthBars
from pastrylab.page.guess import Met
from pastrylab.page.picture import BAND, HABIT, INK, LINE, LOST, Picture
from pastrylab.trade import keeping, water_activity
from pastrylab.trade.dissolved import chocolate_sugar
from pastrylab.trade.formula import Formula
from pastrylab.trade.sugars.solubility import sucrose_solubility


class GanacheKeeping(GrowthBars):
    """A ganache by its parts."""

    CHOCOLATE = "dark couverture 64 %"

    def _parts(self, chocolate, cream, invert, rum):
        return {self.CHOCOLATE: chocolate, "heavy cream 36 %": cream, "invert syrup": invert, "rum 40 %": rum}

    def update(self, *, chocolate, cream, invert, rum, dissolved_share, system="metric"):
        """Parts in g; dissolved_share: share of the chocolate's sugar in solution. Returns the sentence."""
        parts = self._parts(chocolate, cream, invert, rum)
        return self.show(self._estimate(parts, dissolved_share))

    @staticmethod
    def _estimate(parts, dissolved_share):
        made = Formula.of_grams(parts)
        return water_activity.estimate(made.composition(), dissolved_share, chocolate_sugar(made))

    def result_of_guess(self, guess, *, chocolate, cream, invert, rum, dissolved_share, system):
        """A guess in percent of relative humidity, at the estimate with its error: a hundred times water activity."""
        found = self._estimate(self._parts(chocolate, cream, invert, rum), dissolved_share)
        value, *ends = (round(100 * float(careful.written_up(aw)), 9) for aw in (found.value, found.low, found.high))
        can = len(keeping.growth(guess / 100).can_grow) if guess else 0
        might = len(keeping.growth(found).can_grow)
        then = (
            f"At {guess:g} % {can} of the {len(keeping.GROWTH_LIMITS)} groups below can grow; at the high end of the "
            f"estimate, which counts, {might}."
        )
        return Met(value, then, ((guess / 100, None),), tuple(ends))


class FruitKeeping(GrowthBars):
    """A boiled fruit filling without dairy: its estimate, and days without mould where the formulas reach."""

    def update(self, *, puree, sugar, glucose, boiled_to, stands_at, system="metric"):
        """Parts and the weight after boiling in g, stands_at in degC. Returns the sentence."""
        parts = {"raspberry puree": puree, "granulated sugar": sugar, "glucose syrup DE 42": glucose}
        estimate = water_activity.estimate(water_activity.boiled_down.floats(Formula.of_grams(parts), boiled_to))
        low, high = keeping.MOULD_RANGE
        if low <= estimate.low and estimate.high <= high:
            days = keeping.mould_free_days(estimate, Q(stands_at, "degC"), dairy=False).sentence
            also = f"At {self.write(stands_at, 'degC', system)}: {days[0].lower()}{days[1:]}"
        else:
            also = (
                f"The formulas for days without mould cover {low:.2f} to {high:.2f}; the estimate's ends do not both lie "
                "there, so they say nothing here."
            )
        return self.show(estimate, also)


class FoodCodeMap(Picture):
    """A meter reading and a pH, with their errors, on table A or B of the Food Code."""

    _PH = np.arange(3.5, 8.0001, 0.01)

    def __init__(self):
        super().__init__(height=4.8)
        axes = self.axes
        axes.set_title("The reading against the table", fontsize=14, loc="left")
        axes.set_xlabel("pH")
        axes.set_ylabel("water activity, measured")
        axes.set(xlim=(3.5, 8.0), ylim=(0.74, 1.0))
        self._assess, self._table = None, None
        (self._edge,) = axes.plot([], [], color=INK, lw=1.8)
        self._below = axes.text(3.6, 0.755, "", fontsize=11, color=INK)
        self._above = axes.text(
            7.9,
            0.975,
            "",
            fontsize=11,
            color=INK,
            ha="right",
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 2},
        )
        axes.plot([keeping.LOW_ACID_PH, 8.0], [keeping.LOW_ACID_AW] * 2, color=LOST, lw=1.8, ls=(0, (6, 3)))
        axes.text(7.9, keeping.LOW_ACID_AW - 0.013, "21 CFR 114: low-acid above", fontsize=11, color=LOST, ha="right")
        self._box = axes.add_patch(Rectangle((5, 0.85), 0.1, 0.01, facecolor=BAND, edgecolor=INK, alpha=0.85, lw=1.2))
        (self._reading,) = axes.plot([], [], "o", ms=8, mfc="white", mec=INK, mew=2, label="as read")
        (self._worst,) = axes.plot([], [], "X", ms=10, mfc="white", mec=LOST, mew=1.8, label="with the errors")
        axes.legend(loc="lower right", fontsize=11, ncols=2)

    def _draw_table(self, table):
        limits = [keeping.highest_reading(table, round(float(ph), 2), 0) for ph in self._PH]
        if self._assess:
            self._assess.remove()
        self._assess = self.axes.fill_between(
            self._PH, limits, 1.0, facecolor=HABIT, edgecolor="#9a9a9a", hatch="//", lw=0, step="post", zorder=0.5
        )
        self._edge.set_data(self._PH, limits)
        self._edge.set_drawstyle("steps-post")
        self._below.set_text(f"non-TCS by table {table}")
        self._above.set_text(f"table {table}: product assessment (PA)")
        self._table = table

    def update(self, *, table, reading, ph, meter_error, ph_error, system="metric"):
        """A reading of water activity, a pH, their errors: plain numbers. Returns the sentence."""
        found = keeping.food_code(table, reading, ph, meter_error, ph_error)
        if table != self._table:
            self._draw_table(table)
        self._box.set(xy=(ph, reading), width=found.ph - ph, height=found.aw - reading)
        self._reading.set_data([ph], [reading])
        self._worst.set_data([found.ph], [found.aw])
        acid = keeping.low_acid(reading, ph, meter_error, ph_error)
        self.alt = f"{found.sentence} {acid.sentence} {keeping.IN_SHORT}"
        return self.alt


class ModelAgainstMeasured(Picture):
    """The model's curves for sucrose and honey against measured points."""

    _HONEY = np.arange(16.0, 21.01, 0.5)

    def __init__(self):
        super().__init__(height=5.2)
        if self.narrow:  # one above the other
            self.figure.set_figheight(5.2)
        self.axes.remove()
        left, right = self.figure.subplots(*((2, 1) if self.narrow else (1, 2)))
        points = measured("robinson_stokes_sucrose")
        solids = np.linspace(0.5, sucrose_solubility.floats(25.0), 120)
        left.plot(solids, _sucrose(solids), color=LINE, lw=2.2, label="sum, while all dissolves")
        left.plot(
            points["solids_percent"],
            points["water_activity"],
            "o",
            ms=7,
            mfc="white",
            mec=INK,
            mew=1.8,
            label="measured",
        )
        ends = [_honey(moisture) for moisture in self._HONEY]
        low, high = ([getattr(end, name) for end in ends] for name in ("low", "high"))
        right.fill_between(self._HONEY, low, high, color=BAND, alpha=0.5, lw=0, label="sum, its error")
        right.plot(self._HONEY, [end.value for end in ends], color=LINE, lw=2.5, label="sum")
        for row, style in zip(measured("honey_aw"), ("-", ":", "-."), strict=True):
            right.plot(
                [row["moisture_percent_low"], row["moisture_percent_high"]],
                [row["water_activity_low"], row["water_activity_high"]],
                color=LOST,
                lw=2,
                ls=style,
                marker="s",
                ms=5,
                label=row["honeys"],
            )
        left.set(xlim=(0, 72), ylim=(0.8, 1.005), xlabel="sugar, % of the syrup", ylabel="water activity")
        right.set(xlim=(13.5, 21.5), ylim=(0.35, 0.75), xlabel="water, % of the honey", ylabel="water activity")
        left.legend(loc="lower left", fontsize=11)
        right.legend(loc="lower right", fontsize=11)
        self._head(left, right)

    @staticmethod
    def _head(left, right):
        for axes, title in ((left, "Sucrose in water, 25 °C"), (right, "Honeys")):
            axes.set_title(title, fontsize=14, loc="left")
            axes.spines[["top", "right"]].set_visible(False)
            axes.tick_params(labelsize=12)
            axes.xaxis.label.set_size(12)
            axes.yaxis.label.set_size(12)

    def update(self, *, moisture=17.0, system="metric"):
        """moisture: of the honey that is spoken of, percent. Returns the sentence."""
        points = measured("robinson_stokes_sucrose")
        off = np.abs(_sucrose(np.array(points["solids_percent"])) - points["water_activity"]).max()
        honeys = [
            np.interp(
                moisture,
                [row["moisture_percent_low"], row["moisture_percent_high"]],
                [row["water_activity_low"], row["water_activity_high"]],
            )
            for row in measured("honey_aw")
        ]
        model = _honey(moisture)
        self.alt = (
            f"Sucrose: at {len(points)} measured points the sum is never more than {off:.4f} off. Honey with "
            f"{moisture:.0f} % of water: the measured lines read {min(honeys):.2f} to {max(honeys):.2f}, the sum says "
            f"{careful.written_up(model.value)} and allows itself {careful.written_up(model.low)} to "
            f"{careful.written_up(model.high)}."
        )
        return self.alt


def _sucrose(percent):
    return np.asarray(water_activity.norrish.floats(100.0 - percent, {"sucrose": percent}))


def _honey(moisture):
    """The estimate for honey of the ingredient table, with another share of water (percent)."""
    return water_activity.estimate(water_activity.at_moisture.floats(Formula({"honey": "100 g"}), moisture / 100))
