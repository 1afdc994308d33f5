"""Figures of lesson 04: the inversion pot, what the water of a filling holds, and the solubility tables."""

import numpy as np

from pastrylab.ground.reference import measured
from pastrylab.ground.units import Quantity
from pastrylab.page.guess import Met
from pastrylab.page.picture import BAND, HABIT, INK, LINE, LOST, Picture
from pastrylab.trade import sugars
from pastrylab.trade.sugars.inversion import RATE_ERROR, inverted_between
from pastrylab.trade.sugars.solubility import grain_from

_EDGE = "#777777"


def _percent(share):
    if share > 0.995:
        return "over 99"
    if share < 0.001:
        return "under 0.1"
    return f"{100 * share:.0f}" if share > 0.02 else f"{100 * share:.1f}"


class InversionPot(Picture):
    """Share of the sugar inverted over time, with the band of the rate's error."""

    _TIMES = np.linspace(0.0, 1.0, 121)

    def __init__(self):
        super().__init__()
        axes = self.axes
        axes.set_title("Sugar inverted as the pot stands hot", fontsize=14, loc="left")
        axes.set_xlabel("time, minutes")
        axes.set_ylabel("inverted, % of the sugar")
        axes.set_ylim(0, 104)
        axes.axhspan(90, 95, facecolor=BAND, edgecolor=_EDGE, hatch="..", alpha=0.6, lw=0, label="usual aim, 90-95 %")
        self._band = None
        (self._curve,) = axes.plot([], [], color=LINE, lw=2.5, label="estimate")
        (self._drop,) = axes.plot([], [], color=INK, lw=1.2, ls="--")
        (self._point,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="your pot")
        self._fill([0, 1], [0, 0], [1, 1])
        self.figure.legend(loc="outside lower center", ncols=2, frameon=False, fontsize=11)  # never over the ring

    def _fill(self, times, low, high):
        if self._band is None:
            self._band = self.axes.fill_between(
                times,
                low,
                high,
                facecolor="#b9d4ef",
                edgecolor=_EDGE,
                hatch="//",
                alpha=0.55,
                lw=0,
                label=f"rate {100 * RATE_ERROR:.0f} % off either way",
            )
        else:
            outline = np.concatenate([np.column_stack([times, low]), np.column_stack([times, high])[::-1]])
            self._band.set_verts([outline])

    def update(self, *, ph, temperature, time, solids, system="metric"):
        """ph a number, temperature in degC, time in min, solids a share of the syrup. Returns the sentence."""
        rate = float(sugars.inversion_rate.floats(ph, temperature, solids))
        right = next(limit for limit in (60, 120, 240) if time <= 0.9 * limit)
        times = right * self._TIMES
        self._fill(times, *(100 * end for end in inverted_between(rate, times)))
        share, (low, high) = sugars.inverted_share.floats(rate, time), inverted_between(rate, time)
        self._curve.set_data(times, 100 * sugars.inverted_share.floats(rate, times))
        self._point.set_data([time], [100 * share])
        self._drop.set_data([0, time, time], [100 * share, 100 * share, 0])
        self.axes.set_xlim(0, right)
        gained = sugars.invert_yield.floats(100.0, share) - 100.0
        span = (
            "" if _percent(low) == _percent(high) else f": {_percent(low)} to {_percent(high)} %, as the rate is known"
        )
        self.alt = (
            f"After {time:.0f} minutes at {self.write(temperature, 'degC', system)} and pH {ph:.1f}, {_percent(share)} % of the "
            f"sugar is inverted{span}. The sugars weigh {gained:.1f} % more than the sugar you weighed in: that is water "
            f"taken up. {self._half(rate)}{self._boil(temperature, solids, system)}"
        )
        return self.alt

    def result_of_guess(self, guess, *, ph, temperature, time, solids, system):
        """A guess in percent, at the share inverted by the end, between the ends of the rate's error."""
        rate = float(sugars.inversion_rate.floats(ph, temperature, solids))
        share = 100 * float(sugars.inverted_share.floats(rate, time))
        error = tuple(100 * float(end) for end in inverted_between(rate, time))
        then = ""
        if 0 < guess < 100:
            minutes = float(sugars.time_to_invert.floats(guess / 100, rate))
            then = f"The pot reaches {guess:g} % after {self._long(minutes)}."
        return Met(share, then, ((time, guess),), error)

    @staticmethod
    def _long(minutes):
        """A time a pot takes, in words."""
        return f"{minutes:.0f} minutes" if minutes < 600 else f"{minutes / 60:.0f} hours"

    @staticmethod
    def _half(rate):
        minutes = float(sugars.time_to_invert.floats(0.5, rate))
        if minutes < 600:
            return f"Half of it takes {minutes:.0f} minutes."
        return f"Half of it would take {minutes / 60:.0f} hours." if minutes < 6000 else "Half of it would take days."

    def _boil(self, temperature, solids, system):
        """A warning where no open pan at sea level gets so hot with so much water."""
        water, held = Quantity(100 * (1 - solids), "g"), Quantity(100 * solids, "g")
        hottest = sugars.mixed_syrup_boiling_point(water, {"invert sugar": held}).m_as("degC")
        if temperature <= hottest + 0.5:
            return ""
        return (
            f" But an open pan of this syrup boils at {self.write(hottest, 'degC', system, 4)} at the most (sea level, all "
            "inverted): it must lose water to get hotter."
        )


class WaterHolds(Picture):
    """What 100 g of water hold: sucrose against invert sugar or glucose syrup, and a filling's own water phase."""

    def __init__(self):
        super().__init__()
        axes = self.axes
        axes.set_title("What the water of a filling holds", fontsize=14, loc="left")
        axes.set_ylabel("sucrose, g per 100 g of water")
        self._line_x = np.linspace(0.0, 200.0, 41)
        self._band = axes.fill_between(
            [0, 200],
            [0, 0],
            [1, 1],
            facecolor=HABIT,
            edgecolor=_EDGE,
            hatch="//",
            alpha=0.6,
            lw=0,
            label="error of the sum",
        )
        (self._curve,) = axes.plot([], [], color=LINE, lw=2.5, label="saturated: below it all dissolves")
        (self._over,) = axes.plot([], [], color=LOST, lw=2, ls=":", label="can come out as grain")
        (self._point,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="your filling")
        self.figure.legend(loc="outside lower center", ncols=2, frameon=False, fontsize=11)  # never over the ring
        axes.set(xlim=(-6, 206), ylim=(80, 330))

    def update(self, *, temperature, beside, sucrose, syrup="invert sugar", system="metric"):
        """temperature in degC; beside, sucrose in g per 100 g of water; syrup a solute's name. Returns the sentence."""
        held = np.asarray(sugars.sucrose_per_water.floats(temperature, {syrup: self._line_x}))
        self._curve.set_data(self._line_x, held)
        risk = sugars.graining_risk(
            Quantity(100.0, "g"),
            {"sucrose": Quantity(sucrose, "g"), syrup: Quantity(beside, "g")},
            Quantity(temperature, "degC"),
        )
        limit = sucrose / risk.supersaturation
        error = risk.high / risk.supersaturation - 1
        outline = np.concatenate(
            [
                np.column_stack([self._line_x, held * (1 - error)]),
                np.column_stack([self._line_x, held * (1 + error)])[::-1],
            ]
        )
        self._band.set_verts([outline])
        self._point.set_data([beside], [sucrose])
        self._over.set_data([beside, beside] if sucrose > limit else [], [limit, sucrose] if sucrose > limit else [])
        if self.axes.get_xlabel() != (label := f"{_SHORT[syrup]}, g of dry sugars per 100 g of water"):
            self.axes.set_xlabel(label)
        dissolved = min(sucrose, limit)
        solids = (dissolved + beside) / (dissolved + beside + 100.0)
        self.alt = (
            f"At {self.write(temperature, 'degC', system)}, 100 g of water with {beside:.0f} g of {_SHORT[syrup]} hold "
            f"{limit:.0f} g of sucrose; yours has {sucrose:.0f} g. {risk.sentence} "
            f"What is dissolved in the end makes {100 * solids:.0f} % solids."
        )
        return self.alt


_SHORT = {"invert sugar": "invert sugar", "glucose syrup DE 42": "glucose syrup solids"}


_SERIES = (("Herzfeld", "s"), ("independent", "^"))


class SolubilityTables(Picture):
    """Published solubilities of sucrose against the model, and a syrup between them."""

    def __init__(self):
        super().__init__()
        axes = self.axes
        axes.set_title("How much sugar dissolves: tables and model", fontsize=14, loc="left")
        axes.set_ylabel("sugar, % of the syrup")
        t = np.linspace(0.0, 100.0, 101)
        low, high = (np.array(x) for x in zip(*(sugars.sucrose_solubility_band.floats(x) for x in t), strict=True))
        axes.fill_between(
            t, low, high, facecolor=BAND, edgecolor=_EDGE, hatch="..", alpha=0.8, lw=0, label="spread of three series"
        )
        axes.plot(t, sugars.sucrose_solubility.floats(t), color=LINE, lw=2, label="model (Charles)")
        table = measured("sucrose_solubility")
        for series, marker in _SERIES:
            rows = table.where(series=series)
            axes.plot(
                rows["temperature_degc"],
                rows["solubility_percent"],
                marker,
                ms=6,
                mfc="none",
                mec=INK,
                label=f"{series} table",
            )
        (self._drop,) = axes.plot([], [], color=INK, lw=1.2, ls="--")
        (self._point,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="your syrup")
        axes.legend(loc="upper left", frameon=True, fontsize=11)
        axes.set(xlim=(0, 100), ylim=(50, 92))
        self._closer(table, t, low, high)

    def _closer(self, table, t, low, high):
        """The same points against the model, in points of a percentage: what the eye cannot see in the large picture."""
        self._inset = inset = self.axes.inset_axes([0.57, 0.1, 0.41, 0.3])
        model = sugars.sucrose_solubility.floats
        inset.fill_between(
            t, low - model(t), high - model(t), facecolor=BAND, edgecolor=_EDGE, hatch="..", alpha=0.8, lw=0
        )
        inset.axhline(0, color=LINE, lw=2)
        for series, marker in _SERIES:
            rows = table.where(series=series)
            at = np.array(rows["temperature_degc"])
            inset.plot(at, np.array(rows["solubility_percent"]) - model(at), marker, ms=5, mfc="none", mec=INK)
        inset.set_title("tables less the blue line, %", fontsize=11, loc="left")
        inset.tick_params(labelsize=11)
        inset.set(xlim=(0, 100), ylim=(-0.7, 0.7))

    def update(self, *, temperature, share, system="metric"):
        """temperature in degC, share of sucrose in the syrup 0-1. Returns the sentence."""
        model = float(sugars.sucrose_solubility.floats(temperature))
        low, high = sugars.sucrose_solubility_band.floats(temperature)
        self._point.set_data([temperature], [100 * share])
        self._drop.set_data([temperature, temperature], [100 * share, model])
        if self.axes.get_xlabel() != (label := f"temperature, {'°C' if system == 'metric' else '°F'}"):
            self.axes.set_xlabel(label)
            self.temperature_axis(self.axes.xaxis, system, step=20, us_step=40)
            self.temperature_axis(self._inset.xaxis, system, step=50, us_step=60)
        per_water = 100 * share / (1 - share)
        if 100 * share < low:
            said = "All of it dissolves."
        elif 100 * share <= high:
            said = "The tables do not agree whether all of it dissolves."
        else:
            said = (
                f"It is supersaturated: {grain_from(share, model):.0f} g of every 100 g of syrup can come out as grain."
            )
        self.alt = (
            f"At {self.write(temperature, 'degC', system)} a saturated syrup holds {model:.1f} % sugar; published series run "
            f"from {low:.1f} to {high:.1f} %. Yours holds {100 * share:.0f} %, which is {per_water:.0f} g per 100 g of water. {said}"
        )
        return self.alt
