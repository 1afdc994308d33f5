"""Figures of lesson 08: a price and its break-even, what a discount asks of sales, what moves the cost of a piece."""

import textwrap

import numpy as np

from pastrylab.ground import datasets
from pastrylab.ground.money import Money
from pastrylab.ground.units import Q
from pastrylab.page.guess import Met
from pastrylab.page.picture import BAND, HABIT, INK, LINE, LOST, Picture, end_of_axis
from pastrylab.trade import costing
from pastrylab.trade.costing.kitchen import bonbon_formula, cash, kitchen_currency
from pastrylab.trade.purchasing import price_list

_MOST_BARS = 9


def _words(amount):
    return f"{'a loss of ' if amount < 0 else ''}{abs(amount)}"


class BreakEven(Picture):
    """Above, the price for each food-cost percent; below, takings and costs as boxes are sold."""

    def __init__(self):
        super().__init__(height=7.0)
        self.figure.clear()
        self.above, self.axes = self.figure.subplots(2, 1, height_ratios=(1, 1.5))
        for axes in (self.above, self.axes):
            axes.spines[["top", "right"]].set_visible(False)
            axes.tick_params(labelsize=12)
        code = kitchen_currency()
        self.above.set_title("The price a food-cost percent asks for", fontsize=14, loc="left")
        self.above.set_xlabel("food cost, % of the price", fontsize=12)
        self.above.set_ylabel(f"price, {code}", fontsize=12)
        (self._curve,) = self.above.plot([], [], color=LINE, lw=2.5)
        (self._drop,) = self.above.plot([], [], color=INK, lw=1.2, ls="--")
        (self._ring,) = self.above.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2)
        self.axes.set_title("At that price: when is everything paid?", fontsize=14, loc="left")
        self.axes.set_xlabel("boxes sold", fontsize=12)
        self.axes.set_ylabel(code, fontsize=12)
        self._loss = self.axes.fill_between([0, 1], 0, 1, facecolor="#f3b9a8", hatch="//", edgecolor="#9a9a9a", lw=0)
        (self._takings,) = self.axes.plot([], [], color=LINE, lw=2.5, label="takings")
        (self._costs,) = self.axes.plot([], [], color=LOST, lw=2.2, ls=(0, (6, 3)), label="costs, fixed and variable")
        (self._even,) = self.axes.plot([], [], "o", ms=11, mfc="white", mec=INK, mew=2.4, label="break-even")
        (self._sold,) = self.axes.plot([], [], color=INK, lw=1.6, ls=":", label="what you sell")
        self.axes.legend(loc="upper left", frameon=True, fontsize=11)

    def update(self, *, food, share, other, fixed, sold, system="metric"):
        """food, other: cost of a box; fixed: costs of the period; share: food cost of the price; sold: boxes.

        Returns the sentence. Raises StudentError as `costing.price_for` does.
        """
        # Up to the cent: what the board says is what the boxes bring.
        price = costing.price_for(cash(food), share).rounded()
        variable = cash(food) + cash(other)
        gives = costing.contribution(price, variable)
        shares = np.linspace(0.15, 0.8, 140)
        self._curve.set_data(100 * shares, food / shares)
        self._ring.set_data([100 * share], [float(price)])
        self._drop.set_data([0, 100 * share, 100 * share], [float(price)] * 2 + [0])
        self.above.set(xlim=(15, 80), ylim=(0, end_of_axis(food / 0.15)))
        even = costing.break_even(cash(fixed), price, variable) if gives > 0 else None
        right = end_of_axis(max(1.2 * sold, min(1.3 * (even or 0), 4 * sold), 10))
        ends = np.array([0, right])
        takings, costs = float(price) * ends, fixed + float(variable) * ends
        self._takings.set_data(ends, takings)
        self._costs.set_data(ends, costs)
        crossing = min(right, float(cash(fixed) / gives)) if even is not None else right
        at = np.array([0, crossing])
        self._loss.set_data(at, float(price) * at, fixed + float(variable) * at)
        self._even.set_data([even] if even else [], [float(price) * even] if even else [])
        self._sold.set_data([sold, sold], [0, 2 * max(takings[1], costs[1])])
        self.axes.set(xlim=(0, right), ylim=(0, end_of_axis(1.05 * max(takings[1], costs[1]))))
        start = f"A food cost of {100 * share:.0f} % makes the price {price}. "
        self.alt = start + self._says(gives, even, variable, cash(fixed), int(sold))
        return self.alt

    @staticmethod
    def _says(gives, even, variable, fixed, sold):
        if gives == 0:
            return "A box costs just that to make: no profit, no loss, however many you sell." + (
                f" Nothing is left for the fixed costs of {fixed}." if fixed else ""
            )
        if even is None:
            return (
                f"A box costs {variable} to make, so each one sold loses {abs(gives)}: "
                "no number of boxes pays the fixed costs."
            )
        return (
            f"Each box leaves {gives} after its own cost of {variable}. {even} boxes pay the fixed costs of "
            f"{fixed}; {sold} boxes leave {_words(gives * sold - fixed)}."
        )


class Discount(Picture):
    """How many times as many boxes a discount must sell to leave what is left today."""

    guess_word_above = False  # there may stand the line of the boxes expected

    def __init__(self):
        super().__init__(height=4.9)
        axes = self.axes
        axes.set_title("What a discount asks of your sales", fontsize=14, loc="left", pad=6 if self.narrow else 52)
        axes.set_xlabel("discount, % of the price")
        axes.set_ylabel("boxes to sell, today = 100 %")
        self._lost = axes.axvspan(
            36, 60, facecolor="#f3b9a8", hatch="//", edgecolor="#9a9a9a", lw=0, label="every box loses money"
        )
        (self._curve,) = axes.plot([], [], color=LINE, lw=2.5, label="boxes for the same money left")
        (self._hope,) = axes.plot([], [], color=INK, lw=1.4, ls="--", label="boxes you expect")
        (self._ring,) = axes.plot([], [], "o", ms=10, mfc="white", mec=INK, mew=2.2, label="your promotion")
        axes.legend(loc="lower left", bbox_to_anchor=(0, 1.0), ncols=2, frameon=False, fontsize=11)
        axes.set(xlim=(0, 60), ylim=(0, 600))

    def update(self, *, price, variable, off, now, more, system="metric"):
        """price, variable cost of a box, discount as a share, boxes sold now and expected. Returns the sentence."""
        full, made = cash(price), cash(variable)
        reduced = costing.discounted(full, off).rounded()
        gives_now, gives_then = costing.contribution(full, made), costing.contribution(reduced, made)
        edge = max(0.0, costing.margin_of(made, full))
        shares = np.linspace(0, min(0.6, edge - 1e-6), 400) if edge > 0 else np.array([])
        self._curve.set_data(100 * shares, 100 * edge / (edge - shares))
        self._lost.set(x=100 * edge, width=max(0.0, 60 - 100 * edge))
        self._hope.set_data([0, 60], [100 * more / now] * 2)
        self._ring.set_data([100 * off], [100 * more / now])
        self.axes.set_ylim(0, max(600, 115 * more / now))
        if gives_now <= 0:
            brings = "brings just the" if gives_now == 0 else "does not even bring the"
            self.alt = f"At {full} a box {brings} {made} it costs: mend the price before any promotion."
            return self.alt
        start = f"{100 * off:.0f} % off makes the price {reduced}, and a box costs {made} to make. "
        left_now, left_then = gives_now * int(now), gives_then * int(more)
        both = f"{int(now)} boxes leave {left_now} today; {int(more)} with the promotion leave {_words(left_then)}."
        if gives_then == 0:
            self.alt = f"{start}It sells at its cost: no profit, no loss, and no number of boxes leaves what is left today. {both}"
        elif gives_then < 0:
            self.alt = f"{start}Every box sold loses {abs(gives_then)}: the better it sells, the worse. {both}"
        else:
            needed = costing.break_even(left_now, reduced, made)
            self.alt = f"{start}To leave what is left today you must sell {needed} instead of {int(now)}. {both}"
        return self.alt

    def result_of_guess(self, guess, *, price, variable, off, now, more, system):
        """A guess in percent of more boxes, at what a discount asks for; the boxes are whole, the prices rounded."""
        full, made = cash(price), cash(variable)
        reduced = costing.discounted(full, off).rounded()
        gives, left = costing.contribution(reduced, made), costing.contribution(full, made) * int(now)
        needed, sold = costing.break_even(left, reduced, made), round(now * (1 + guess / 100))
        then = f"{sold} boxes instead of {int(now)} would leave {_words(gives * sold)}, and today's {int(now)} leave {left}."
        return Met(100 * (needed / now - 1), then, ((100 * off, 100 + guess),))


class WhatMoves(Picture):
    """Ranked bars: the cost of a good piece when one input alone takes its low and its high value."""

    def __init__(self):
        super().__init__(height=6.2)
        axes = self.axes
        axes.set_title("What moves the cost of a piece most", fontsize=14, loc="left")
        axes.set_xlabel(f"cost of one good piece, cents ({kitchen_currency()})")
        rows, flat = range(_MOST_BARS), [0.0] * _MOST_BARS
        style = {"height": 0.62, "edgecolor": INK, "linewidth": 0.8}
        self._less = axes.barh(rows, flat, color=BAND, hatch="//", label="cheaper", **style)
        self._more = axes.barh(rows, flat, color=LINE, label="dearer", **style)
        self._today = axes.axvline(50, color=INK, lw=1.6)
        axes.set_yticks(rows, ["price of an ingredient\nlow to high"] * _MOST_BARS)
        axes.tick_params(axis="y", labelsize=11, length=0)
        axes.grid(axis="x", color=HABIT)
        axes.set_axisbelow(True)
        axes.legend(loc="lower right", frameon=True, fontsize=11)
        axes.set_ylim(_MOST_BARS - 0.4, -0.6)

    def update(self, *, bonbon, wage, on_costs, minutes, rejects, unsure, system="metric"):
        """bonbon: a name in bonbons.csv; wage by the hour; on_costs: share on top of it; minutes of work; rejects of the
        batch; unsure: share.

        Returns the sentence. Raises StudentError as `costing.what_moves` does.
        """
        formula, pieces = bonbon_formula(bonbon)
        packs = price_list(datasets.prices())
        time = Q(minutes, "min")
        work = costing.labour_cost(cash(wage), time, on_costs=on_costs)
        batch = costing.batch_cost(costing.formula_cost(formula, packs).total, pieces, int(rejects), work)
        bars = costing.what_moves(formula, packs, pieces, int(rejects), cash(wage), time, unsure, on_costs)
        today, shown = 100 * float(batch.per_piece), bars[:_MOST_BARS]
        for row in range(_MOST_BARS):
            ends = (
                [100 * float(c) for c in (shown[row].cost_at_low, shown[row].cost_at_high)]
                if row < len(shown)
                else [today]
            )
            for patch, end in ((self._less[row], min(*ends, today)), (self._more[row], max(*ends, today))):
                patch.set_x(min(end, today))
                patch.set_width(abs(end - today))
        labels = [_bar_label(bar) for bar in shown] + [""] * (_MOST_BARS - len(shown))
        if labels != [label.get_text() for label in self.axes.get_yticklabels()]:
            self.axes.set_yticklabels(labels)
        reach = 100 * max(float(abs(c - batch.per_piece)) for b in bars for c in (b.cost_at_low, b.cost_at_high))
        reach = max(1.15 * reach, 0.1)
        self.axes.set_xlim(today - reach, today + reach)
        self._today.set_xdata([today] * 2)
        first, ingredient = shown[0], next((bar for bar in bars if bar.name.startswith("price")), bars[0])
        self.alt = (
            f"A good piece costs {today:.1f} cents: {100 * float(batch.materials / batch.total):.0f} % of it "
            f"ingredients, {100 * float(batch.labour / batch.total):.0f} % work. Most moves it: {first.name}, from "
            f"{100 * float(first.cost_at_low):.1f} to {100 * float(first.cost_at_high):.1f} cents."
        )
        if ingredient is not first:
            swing = 100 * float(ingredient.swing)
            self.alt += f" Among the ingredients it is the {ingredient.name}, worth {swing:.1f} cents from low to high."
        return self.alt


def _bar_label(bar):
    if bar.name.startswith("yield"):
        ends = f"{100 * float(bar.low):.0f} to {100 * float(bar.high):.0f} %"
    elif isinstance(bar.low, Money):
        ends = f"{bar.low} to {bar.high}"
    else:
        ends = f"{bar.low:.0f} to {bar.high:.0f}"
    # A dollar sign would begin a formula.
    return f"{textwrap.shorten(bar.name, 34, placeholder='…')}\n{ends}".replace("$", r"\$")


class CostParts(Picture):
    """What makes up the cost of a box: bars by share, the ingredients first, then work, overhead and packaging."""

    _ROWS, _ALL = 10, ("work", "overhead", "packaging")

    def __init__(self):
        super().__init__(height=5.0)
        axes = self.axes
        axes.set_title("What makes up a box", fontsize=14, loc="left")
        axes.set_xlabel("share of its cost, %")
        self._bars = axes.barh(range(self._ROWS), [0.0] * self._ROWS, height=0.62, edgecolor=INK, linewidth=0.8)
        self._words = [axes.text(0, row, "", va="center", fontsize=11, color=INK) for row in range(self._ROWS)]
        longest = "heavy cream 36 mmm" if self.narrow else "30 letters, m and n among them"  # its room stays
        axes.set_yticks(range(self._ROWS), [longest] * self._ROWS)
        axes.tick_params(axis="y", labelsize=11, length=0)
        axes.set_axisbelow(True)
        self.settle()

    def update(self, *, costed, box, system="metric"):
        """costed: a card.CostCard; box: the pieces in it. Returns the sentence: shares only, the card has the money."""
        rows, few = self._parts(costed, box), costed.full
        labels = [self._label(name) for name, _, _ in rows]
        self.axes.set_yticks(range(len(rows)), labels)
        self.axes.set(ylim=(len(rows) - 0.4, -0.6), xlim=(0, max(1.15 * max(part for _, part, _ in rows), 1)))
        for row, (bar, words) in enumerate(zip(self._bars, self._words, strict=True)):
            _, part, kind = rows[row] if row < len(rows) else ("", 0.0, "")
            bar.set(width=part, visible=bool(kind), facecolor=_FACES.get(kind, LINE), hatch=_HATCHES.get(kind, ""))
            words.set(x=part, text=f" {_part_text(part)} %" if kind else "")
        ranked = sorted(rows, key=lambda row: row[1], reverse=True)
        named = ", ".join(f"{name} ({_part_text(part)} %)" for name, part, _ in ranked[:3])
        food = sum(part for _, part, kind in rows if kind == "ingredient")
        self.alt = f"A box costs {few} in all. The largest parts: {named}. Ingredients together: {_part_text(food)} %."
        self.renew()
        return self.alt

    def _label(self, name):
        """A name beside its bar, in two lines on a narrow page; a dollar sign would begin a formula."""
        short = textwrap.shorten(name, 30, placeholder="…").replace("$", r"\$")
        return textwrap.fill(short, 16) if self.narrow else short

    def _parts(self, costed, box):
        """(name, share in %, kind): the dearest ingredients, the others together, then what else a box costs."""
        batch = costed.batch
        pieces = box / batch.good_pieces
        packed = float(costed.full) - float(costed.in_box[f"{box} pieces"])
        lines = sorted(
            ((line.ingredient, float(line.cost) * pieces) for line in costed.used.lines), key=lambda x: -x[1]
        )
        shown = self._ROWS - len(self._ALL)
        if len(lines) > shown:
            lines = [*lines[: shown - 1], ("the other ingredients", sum(cost for _, cost in lines[shown - 1 :]))]
        rest = (float(batch.labour) * pieces, float(batch.overhead) * pieces, packed)
        parts = [(name, cost, "ingredient") for name, cost in lines]
        parts += [(kind, cost, kind) for kind, cost in zip(self._ALL, rest, strict=True) if cost > 0]
        whole = sum(cost for _, cost, _ in parts)
        return [(name, 100 * cost / whole if whole else 0.0, kind) for name, cost, kind in parts]


_FACES = {"ingredient": LINE, "work": BAND, "overhead": HABIT, "packaging": "#ffffff"}
_HATCHES = {"work": "//", "packaging": ".."}


def _part_text(part):
    return f"{part:.0f}" if part >= 9.5 else f"{part:.1f}"
