"""The formula box: a prep list as one writes it, what each line was read as, what is still asked, and steps to take."""

import base64

import ipywidgets as widgets

from pastrylab.ground.units import Quantity, StudentError, both, show
from pastrylab.page import keeper
from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE, TypedArea, button, field, on_press, row
from pastrylab.page.formula import file as formula_file
from pastrylab.page.formula.activity import ActivityTab
from pastrylab.page.formula.composition import CompositionTab
from pastrylab.page.formula.cost import CostTab
from pastrylab.page.formula.mend import MendTab
from pastrylab.page.formula.percent import PercentTab
from pastrylab.page.formula.questions import PrepQuestions
from pastrylab.page.formula.swap import SwapTab
from pastrylab.page.keeper import Keeper, Thing
from pastrylab.page.parts import part, text_html

# The steps, in the order of their buttons; a lesson opens the one it names by a word of its title.
TABS = (PercentTab, CompositionTab, MendTab, SwapTab, ActivityTab, CostTab)
SHELF, IN_FORCE, LAST = "formulas", "formula-in-force", "formula"
EXAMPLE = (
    "Dark truffle of the Larkmoor Teaching Kitchen (invented)\n330 g dark couverture 64 %\n3/4 cup heavy cream, warm\n"
    "invert syrup; 35 g\nButter (soft): 25 g"
)
_WORDS = ("words", "words")
_NOTE = (
    "A line an ingredient, name and amount in any order: grams, ounces, cups or spoons. What is clear is read, what is not "
    "is asked. An ingredient that is not in the list: copy its label into your own kitchen, on the "
    "page Start here, or take the nearest."
)


class FormulaBox(widgets.VBox):
    """One's own formula. tab: a word of the title of the step to open, or "" for the first.

    `formula` is the formula in force, None while something is asked. It is kept as it stands, and the next box, in another
    lesson or on another day, opens with it.
    """

    def __init__(self, tab="", tabs=TABS):
        self.formula, self.read_list, self._quiet = None, None, False
        self._make_controls()
        self.questions = PrepQuestions(self.refresh)
        self.said, self.lines, self.export = (widgets.HTML(layout=WIDE) for _ in range(3))
        self.keeper = Keeper(SHELF, "formula", self._to_keep, self._given, [self.text])
        self._tabs = {kind.title: kind for kind in tabs}
        self._made = {}
        self.steps = widgets.ToggleButtons(
            options=list(self._tabs), description="Step", style={"button_width": "auto"}, layout=WIDE
        )
        word = tab.casefold()
        self.steps.value = next((title for title in self._tabs if word in title.casefold()), next(iter(self._tabs)))
        self.place = widgets.VBox(layout=WIDE)
        self._listen()
        note = widgets.HTML(part("legend", text=_NOTE), layout=WIDE)
        buttons = row(self.read, self.example, self.load)
        super().__init__(
            [note, self.text, buttons, self.said, self.lines, self.questions]
            + [self.keeper, self.export, self.steps, self.place],
            layout=WIDE,
        )
        self.add_class("pastrylab-formula")
        self._begin()

    def _make_controls(self):
        self.text = TypedArea(
            description="Prep list",
            placeholder="300 g dark couverture 64 %\n3/4 cup heavy cream\nbutter; 25 g",
            rows=7,
            **field("640px"),
        )
        self.read = button("Read the list", "Say how each line was read")
        self.example = button("Show me an example", "Put an invented list into the box")
        self.load = widgets.FileUpload(
            accept=".csv,.txt,.tsv",
            description="Read in a file",
            layout=widgets.Layout(width="auto", min_width="150px"),
        )

    def _listen(self):
        said = guarded(self.said)
        self.text.observe(said(lambda _change: self.refresh()), "value")
        self.load.observe(said(self._loaded), "value")
        on_press(self.read, self.text, said(self.refresh))
        self.example.on_click(said(lambda _button: self.put(EXAMPLE)))
        self.steps.observe(guarded(self.said)(lambda _change: self._in_front()), "value")

    def _begin(self):
        """Open with the formula that was last in force, here or in another lesson."""
        try:
            last = keeper.get(IN_FORCE, LAST)
        except StudentError:
            last = Thing("")
        self._quiet, self._last = True, last
        self.questions.restore(last.settings)
        self._quiet = False
        guarded(self.said)(self.put)(last.text)

    # --- what is read

    def put(self, text):
        """Put a prep list into the box and read it."""
        self._quiet = True
        self.text.value = text
        self._quiet = False
        self.refresh()

    def refresh(self):
        """Read the list as it stands, with what was answered, and show all that follows."""
        if self._quiet:
            return
        self.formula, self.lines.value, self.export.value = None, "", ""
        text = self.text.value.strip()
        self.read_list = self.questions.read(text)
        if not text:
            self.said.value = ""
        else:
            self.lines.value = _table(self.read_list)
            self._judge()
        self._in_front()
        self._remember(Thing(text, self.questions.settings() if text else {}))

    def _remember(self, thing):
        """What stands in the box is there again in the next lesson, and on another day."""
        if thing != self._last:
            keeper.put(IN_FORCE, LAST, thing)
            self._last = thing

    def _judge(self):
        """Say whether there is a formula now, or what stands in its way."""
        made = self.read_list
        self.formula = made.formula
        if made.open:
            many = "One question is" if made.open == 1 else f"{made.open} questions are"
            self.said.value = text_html(f"{many} open: answer below the table.", "mend")
        elif self.formula is None:
            self.said.value = text_html("No line of this list names something to weigh.", "mend")
        else:
            count = len(self.formula.grams)
            whole = both(self.formula.total, 4)
            many = "One ingredient" if count == 1 else f"{count} ingredients"
            self.said.value = text_html(f"{many}, together {whole}. This formula is in force in every lesson.", "good")
            self.export.value = self._link()

    def _in_front(self):
        """Show the step whose button is pressed, made when it is first asked for."""
        title = self.steps.value
        if title not in self._made:
            self._made[title] = self._tabs[title](keep=self.keep)
        shown = self._made[title]
        self.place.children = [shown]
        shown.show(self.formula)

    # --- what is kept and what comes back

    def keep(self, name, formula):
        """Take over a changed formula as the one in force; name: what it is called where it is kept."""
        before = self.keeper.name.value.split(", ")[0]
        self.keeper.name.value = f"{before}, {name}"[:60]
        self.put(formula_file.as_lines(formula, self._notes()))

    def _notes(self):
        return {line.ingredient: line.note for line in self.read_list.parts if line.note} if self.read_list else {}

    def _to_keep(self):
        if self.formula is None:
            raise StudentError("no formula yet", "a list that is read to the end", EXAMPLE.splitlines()[1])
        return Thing(formula_file.as_csv(self.formula, self._notes()))

    def _given(self, _name, thing):
        self.put(formula_file.lines_of(thing.text))

    def _loaded(self, change):
        if change["new"]:
            self.put(formula_file.lines_of(bytes(change["new"][0]["content"])))
            name = str(change["new"][0]["name"]).rpartition(".")[0]
            self.keeper.name.value = (
                "".join(c for c in name if c.isalnum() or c in " -_")[:60] or self.keeper.name.value
            )

    def _link(self):
        text = formula_file.as_csv(self.formula, self._notes())
        data = base64.b64encode(b"\xef\xbb\xbf" + text.encode()).decode("ascii")
        return str(part("export", data=data, name="formula.csv"))


def lines_in_force():
    """The formula in force as a prep list in the names of ingredients.csv, "" where there is none."""
    try:
        last = keeper.get(IN_FORCE, LAST)
    except StudentError:
        return ""
    questions = PrepQuestions(lambda: None)
    questions.restore(last.settings)
    formula = questions.read(last.text).formula
    return formula_file.as_lines(formula) if formula else ""


def _table(made):
    """Each line as typed and as read."""
    rows = [(line.typed, _as_read(line)) for line in made.lines]
    return str(part("table", caption="How each line was read", heads=("you wrote", "read as"), rows=rows, looks=_WORDS))


def _as_read(line):
    if line.kind != "part":
        return line.said
    if line.asks:
        return f"{line.ingredient or '?'}: asked below"
    weight = f"{show(Quantity(line.grams, 'g'), 4)} " if line.grams is not None else ""
    return f"{weight}{line.ingredient}" + (f" ({line.said})" if line.said else "")
