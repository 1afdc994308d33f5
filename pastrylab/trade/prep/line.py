"""One line of a prep list: its amount by the kitchen grammar, its name by the pantry, or the question that is open."""

import re
from dataclasses import replace

from pastrylab.trade.prep.amounts import amounts_in, for_each, one_amount, range_in, sum_in, without_range
from pastrylab.trade.prep.cells import cells_of
from pastrylab.trade.prep.headings import no_part
from pastrylab.trade.prep.names import VAGUE
from pastrylab.trade.prep.weights import LEAVES, STICKS, Line, Question, from_text, how_much, weighed

LEAVE_OUT = "leave this line out"
# "cream 35 250 g": thousands, or a figure of the name in front of the amount.
_GROUPED = re.compile(r"(\d{1,3})\s+(\d{3}\b.*)")
_APART = 0.65, 1.5  # of what a measure weighs by its density: a written weight beyond that is another amount
_DASH = re.compile(r"\s*[-−–—][\d½⅓⅔¼¾]")
_BETWEEN = re.compile(r"(?<=[a-zA-Z.])\s*/\s*(?=\d)")  # "200 g/8 oz": two amounts
_NOTE = "note:"  # a bracket that begins so holds no amount
_WHOLE = ("mass", "volume")


class Reading:
    """One line on its way from what was typed to a Line. names: a Names; answers, unit: as in `read_list`; heads: the
    columns of a table it stands in, or None.

    >>> from pastrylab.trade.prep.names import Names
    >>> Reading("butter; 25 g", Names.in_force(), {}, "").line().grams
    25.0
    """

    def __init__(self, typed, names, answers, unit, heads=None):
        self.typed, self.names, self.heads = typed, names, heads
        self.unit = unit or (heads.unit if heads else "")
        self.key = typed.strip()
        self.chosen = answers.get((self.key, "ingredient"), "").strip()
        self.given = answers.get((self.key, "amount"), "").strip()
        typed = _BETWEEN.sub(" / ", typed)
        parted = for_each(typed)
        self.each = parted[1] if parted else ""
        self.text, self.cells, self.brackets = cells_of(parted[0] if parted else typed)
        self.found = [(cell, one) for cell in self.cells for one in amounts_in(cell)]
        self.beside = [one for text in self.brackets if not text.startswith(_NOTE) for one in amounts_in(text)]
        self.doubt = None
        self._part_grouped()

    def _part_grouped(self):
        """ "cream 35 250 g" is not 35 kg for sure where there is a "cream 35"."""
        for k, (cell, one) in enumerate(self.found):
            grouped = _GROUPED.fullmatch(one.text)
            if grouped and self.names.find(f"{cell[: one.start]} {grouped[1]}".replace(",", " ")):
                (rest,) = amounts_in(grouped[2])
                start = one.start + grouped.start(2)
                self.found[k] = cell, replace(rest, start=start, end=start + len(rest.text))
                whole = f"'{one.text}' in '{self.key}' can be read two ways: which is it"
                self.doubt = self._how_much(whole, (grouped[2], f"{grouped[1]}{grouped[2]}"))

    def line(self):
        if LEAVE_OUT in (self.chosen, self.given):
            return Line(self.key, "left out", said="left out, as you said")
        apart = no_part(self)
        if apart:
            return apart
        amount, asks = self._amount()
        name = self._name(amount)
        ingredient = self.names.find(self.chosen) if self.chosen else self._ingredient(name)
        line = Line(self.key, ingredient=ingredient, note=self._note(name, ingredient))
        several = self._several()
        if len(several) > 1 and not (self.chosen and self.given):
            return replace(line, asks=self._one_line_each(several))
        if not ingredient:
            share = next((one.typed.number for one in amount if one.kind == "percent"), self._share())
            return replace(line, percent=share, asks=self._which(name, self.chosen))
        if self.given:
            return from_text(line, self.given)
        if asks:
            return replace(line, asks=asks)
        return self._dashed(self._beyond_doubt(self._weighed(line, amount), amount))

    def _several(self):
        """The ingredients named beside two amounts or more: "10 oz honey / cream 1 cup" is two lines in one."""
        weighed_out = [one for _, one in self.found if one.kind in (*_WHOLE, "unclear")]
        return self.names.named_by(re.split(" [;/] ", self._without(weighed_out))) if len(weighed_out) > 1 else []

    def _one_line_each(self, several):
        sentence = f"'{self.key[:60]}' names {', '.join(several)}: give each a line of its own in the list. "
        if not self.chosen:
            return Question("ingredient", sentence + "Which one is this line?", tuple(several))
        amounts = tuple(one.text for _, one in self.found if one.kind in _WHOLE)
        return self._how_much(f"{sentence}How much {self.chosen} is it", amounts)

    def _dashed(self, line):
        """The line; a dash before its amount is a bullet, which is said: nobody weighs less than nothing."""
        if line.asks or not _DASH.match(self.typed):
            return line
        return replace(line, said="; ".join(filter(None, (line.said, "the dash in front is read as a bullet"))))

    def _beyond_doubt(self, line, amount):
        """The line; with a question where a weight and a measure are written and lie far apart."""
        volumes = [one for one in (*(one for _, one in self.found), *self.beside) if one.kind == "volume"]
        if line.grams and amount[0].kind == "mass" and len(volumes) == 1:
            by_measure = weighed(line, volumes[0]).grams
            if by_measure and not _APART[0] < line.grams / by_measure < _APART[1]:
                sentence = f"'{self.key}' gives two amounts that lie far apart: which is it"
                if len(self._without([one for _, one in self.found if one.kind in _WHOLE]).split(" ; ")) > 1:
                    sentence = (
                        f"'{self.key}' has two amounts; a second ingredient belongs on a line of its own. Which is it"
                    )
                both = sorted((amount[0].text, volumes[0].text), key=self.typed.find)
                return how_much(replace(line, grams=None, said=""), sentence, both)
        return line

    # --- how much

    def _amount(self):
        """(the amounts that say how much, a Question or None)."""
        asked = self._no_one_amount()
        if asked:
            return [one for _, one in self.found if self.each and one.kind in _WHOLE], asked
        if self.doubt:
            return [one for _, one in self.found if one.kind in (*_WHOLE, "bare")][-1:], self.doubt
        self._fluid()
        for kind in _WHOLE:
            here = [one for _, one in self.found if one.kind == kind]
            if here and (kind == "mass" or not self._in_brackets("mass")):
                return self._agreed(here, self._in_brackets(kind))
            if self._in_brackets("mass"):
                return self._agreed(self._in_brackets("mass"), [])
        for where, one in self.found:
            if one.kind == "unclear":
                return [one], self._how_much(
                    f"'{one.text}' in '{self.key}' can be read two ways: which is it", one.choices
                )
            if (
                one.kind == "percent"
                and one.text == where
                and not any(b.kind == "bare" and b.text == c for c, b in self.found)
            ):
                return [one], None
        return self._counted()

    def _no_one_amount(self):
        """A Question for an amount for each of something else, a range or a sum; else None."""
        if self.each:
            sentence = f"'{self.key}' is so much for each of something else ({self.each}): how much do you weigh in all"
            return self._how_much(sentence)
        ends = range_in(self.text)
        if ends:
            return self._how_much(f"'{self.key}' gives a range: how much do you weigh", ends)
        if sum_in(self.text):
            return self._how_much(f"'{self.key}' holds a sum, which is yours to do: how much is it")
        return None

    def _counted(self):
        counted = [one for _, one in self.found if one.kind in ("count", "bare")]
        if self._in_brackets("volume"):
            return self._agreed(self._in_brackets("volume"), [])
        alone = [one for where, one in self.found if one in counted and one.text == where]
        if self.heads and self.heads.at < len(self.cells):
            alone = [one for where, one in self.found if where is self.cells[self.heads.at] and one in alone] or alone
        if len(alone) > 1:
            numbers = tuple(f"{one.text} {self.unit or 'g'}" for one in alone if one.kind == "bare")
            return [], self._how_much(f"'{self.key}' has several numbers: how much is it", numbers)
        whole = self.names.find(self.text.replace(",", " "))
        if whole and not alone:
            counted = []
        behind = [one for one in counted if self.names.find(self._without([one]))]
        chosen = alone or behind or counted
        return ([chosen[0]], None) if chosen else ([], None)

    def _fluid(self):
        """ "2 cups (16 oz)" are fluid ounces: where the measure says so, the ounces are no weight."""
        volumes = [one.text for one in (*(one for _, one in self.found), *self.beside) if one.kind == "volume"]

        def weighs(one):
            ounces = one.kind == "mass" and one.typed.unit == "oz" and len(volumes) == 1
            return not (ounces and one_amount([volumes[0], f"{one.typed.number:g} fl oz"]))

        self.found = [(cell, one if weighs(one) else replace(one, kind="other")) for cell, one in self.found]
        self.beside = [one for one in self.beside if weighs(one)]

    def _in_brackets(self, kind):
        return [one for one in self.beside if one.kind == kind]

    def _agreed(self, here, beside):
        """One amount of several; those that disagree are asked about."""
        texts = [one.text for one in (*here, *beside)]
        if len(texts) == 1 or one_amount(texts):
            return list(here), None
        apart = len(self._without(here).split(" ; ")) > 1
        more = "; a second ingredient belongs on a line of its own. Which is it" if apart else ": which is it"
        return list(here), self._how_much(f"'{self.key}' has several amounts{more}", tuple(texts))

    def _weighed(self, line, amounts):
        """The line with its grams, or with the question that leads to them."""
        if amounts:
            return weighed(line, amounts[0], self.text, self.unit)
        asked = how_much(line, f"'{self.key}' says no amount: how much {line.ingredient} is it")
        return replace(asked, percent=self._share())

    def _share(self):
        """The last percentage of a line that says no other amount, or None."""
        if any(one.kind != "percent" for _, one in self.found):
            return None
        return next((one.typed.number for _, one in reversed(self.found)), None)

    def _how_much(self, sentence, choices=()):
        return Question("amount", f"{sentence}?", tuple(choices))

    # --- of what

    def _without(self, amounts):
        """What of the line is not an amount, its cells apart."""
        rest = []
        for whole in self.cells:
            cell = whole
            for where, one in reversed(self.found):
                if where is whole and one in amounts:
                    cell = f"{cell[: one.start]} ; {cell[one.end :]}"
            rest += [piece.strip(" ,.:~≈/") for piece in cell.split(";")]
        rest = [STICKS.sub(" ", piece).strip() for piece in rest]
        return " ; ".join(piece.removeprefix("of ") for piece in rest if re.search(r"\w", piece))

    def _name(self, amounts):
        """What the line names: all of it but the amounts."""
        taken = [one for _, one in self.found if one in amounts or one.kind in (*_WHOLE, "other")]
        if range_in(self.text):
            return without_range(self.text).strip(" ,.:")
        counts = [one for _, one in self.found if one.kind in ("count", "bare")]
        if counts and not self._ingredient(self._without(taken)):
            first = counts[0]  # "3 egg yolks": the unit is the name
            number = re.match(r"[^a-zA-Z]*", first.text).group()
            bare = replace(first, end=first.start + len(number), text=number)
            self.found = [(cell, bare if one is first else one) for cell, one in self.found]
            taken = [one for one in taken if one is not first] + [bare]
        return self._without(taken)

    def _ingredient(self, name):
        pieces = name.split(" ; ")
        shares = [text for text in self.brackets if re.search(r"\d", text) and len(text) < 12 and _NOTE not in text]
        for text in [f"{' '.join(pieces)} {share}" for share in shares] + [" ".join(pieces), *pieces]:
            found = self.names.find(VAGUE.sub(" ", text)) or self.names.find(LEAVES.sub(" ", text))
            if found:
                return found
        # A share at the end may be the amount, in a list that is written in percent.
        alone = all(one.kind == "percent" for _, one in self.found) and not shares and len(pieces) == 1
        return self.names.find(re.sub(r"[\d.,]+ ?%$", "", name)) if alone else ""

    def _which(self, name, chosen):
        """Which ingredient it is; chosen: what was answered and is in no list, or ""."""
        name = name.replace(" ; ", " ") or self.key
        sought = chosen or name
        held = self.names.held_in(sought)
        choices = self.names.like(sought)
        choices = [*([held] if held else []), *(one for one in choices if one != held)]
        wrong = f"'{chosen[:40]}' is not in the list. " if chosen else ""
        return Question("ingredient", f"{wrong}Which ingredient is '{name[:60]}'?", tuple(choices))

    def _note(self, name, ingredient):
        """Words of the line that are neither its name nor its amount."""
        notes = [text for text in self.brackets if text.startswith(_NOTE) or not amounts_in(text)]
        notes = [text.removeprefix(_NOTE).strip() for text in notes]
        pieces = [piece.strip() for text in name.split(" ; ") for piece in text.split(",")]
        if len(pieces) > 1 and ingredient and self.names.find(pieces[0]) == ingredient:
            notes = [*(one for one in pieces[1:] if one not in ingredient and re.search(r"[^\W\d]", one)), *notes]
        return ", ".join(notes)
