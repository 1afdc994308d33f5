"""Four smears to look at first; what the one that is chosen says of its bowl comes after."""

import ipywidgets as widgets

from pastrylab.page.bench import guarded
from pastrylab.page.boxes import WIDE
from pastrylab.page.drawings import SMEARS
from pastrylab.page.parts import drawings_html, part, text_html

_LETTERS = "ABCD"
# What a smear says, and what to do: common practice, no source.
_SAYS = {
    "A": "A is in temper: enough crystals of form V, evenly stirred. Cast now, and smear again in a quarter of an hour.",
    "B": "B is over-seeded: more crystals than the bowl can carry. It sets on the knife, drags, and holds air. Warm it half a "
    "degree at a time towards the warm end of its band, or thin it with melted-out chocolate, by sum; smear again.",
    "C": "C is under-seeded: crystals stand in it, too few or not stirred through. Stir for some minutes at the cold end of the "
    "band, with a spoonful of fine seed; smear again. Pieces cast now would come out streaked.",
    "D": "D has lost its temper: no crystals are left, whatever the thermometer shows now. Seed it again, by the sum, and smear. "
    "Pieces cast now would stay soft and stick.",
    "": "Then this strip cannot tell. Lay a new one where it is about 20 °C (68 °F), look after five minutes and after ten, and "
    "cast nothing until one sets evenly and with a gloss.",
}


class SmearCard(widgets.VBox):
    """Four smears, under letters; the words come when one is chosen."""

    def __init__(self):
        drawn = [draw(letter) for draw, letter in zip(SMEARS, _LETTERS, strict=True)]
        pictures = widgets.HTML(drawings_html(drawn), layout=WIDE)
        asked = widgets.HTML(
            part("asked", text="Which one looks most like yours, or which would you cast from?"), layout=WIDE
        )
        self.choice = widgets.ToggleButtons(
            options=[*((letter, letter) for letter in _LETTERS), ("none of them", "")],
            value=None,
            description="Smear",
            style={"button_width": "auto"},
        )
        self.said = widgets.HTML(layout=WIDE)
        self.choice.observe(guarded(self.said)(self._chosen), "value")
        super().__init__([pictures, asked, self.choice, self.said], layout=WIDE)

    def _chosen(self, change):
        look = "good" if change["new"] == "A" else "mend"
        self.said.value = text_html(_SAYS[change["new"]], look)


def smears():
    """Four smears: look first, choose one, then read what it says of its bowl."""
    return SmearCard()
