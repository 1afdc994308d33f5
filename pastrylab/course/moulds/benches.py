"""Benches of lesson 06: a mould in section, what must be in the bowl, what stays on a wall, one's own mould."""

import ipywidgets as widgets

from pastrylab.course.moulds.bowl_figure import CAPS, KINDS, STICKS, BowlDay
from pastrylab.course.moulds.own import MouldBench
from pastrylab.course.moulds.section import SHAPES, Section
from pastrylab.course.moulds.wall_picture import WallFilm
from pastrylab.page.bench import Bench, Control, Plain
from pastrylab.page.boxes import WIDE
from pastrylab.page.cards import GuessCard
from pastrylab.page.guess import Asked
from pastrylab.page.parts import picture_html, text_html
from pastrylab.page.pictured import Pictured

_LESSON = "06"
_GUESS = Asked(_LESSON, "chocolate", "percent", "the half ball")
_TEETH = (
    "Blue: what is in the bowl; down as a mould is filled to the brim, up as it is tipped back. Hatched: what no ladle takes "
    f"up. Dotted: what must be in it at the start. {STICKS:g} g at each mould stay on scraper and tray. Shells and caps at 1.27 g/mL, "
    "fluid chocolate at 1.22 g/mL, caps 2 mm thick. The moulds are invented."
)
_CAPS = ("caps", "From this bowl", list(CAPS.items()))


def guess_chocolate():
    """The guess before the mould in section."""
    return GuessCard(
        _LESSON,
        "chocolate",
        "A half ball, 32 mm (1¼ in) across. Its wall is 1.5 mm, its cap 2 mm: no thicker than a coin. How much of the finished "
        "piece's weight is chocolate, and not filling? Commit to a percentage before you look.",
        "20 %",
        most="100 %",
    )


def section_bench():
    """A cavity in section, to scale: how much of it is shell, filling and cap."""
    controls = (
        Control("across", "Across the opening", "mm", 16, 44, 1, 32, us=(0.625, 1.75, 0.0625)),
        Control("depth", "Depth", "mm", 8, 28, 1, 16, us=(0.3125, 1.125, 0.0625)),
        Control("wall", "Wall", "mm", 0.5, 4, 0.1, 1.5, us=(0.02, 0.16, 0.005)),
        Control("headspace", "Filling ends below the rim", "mm", 0.5, 5, 0.1, 2, us=(0.02, 0.2, 0.005)),
        Control("cap", "Cap", "mm", 0.5, 5, 0.1, 2, us=(0.02, 0.2, 0.005)),
    )
    choices = (("shape", "Shape", [(name, name) for name in SHAPES]),)
    legend = (
        "To scale; the wall is the same everywhere, which no hand makes. Set chocolate at 1.27 g/mL, a filling at 1.1 g/mL. "
        "As deep as half its width, the dome is a half ball."
    )
    return Bench(Section(), controls, legend, choices, guess=_GUESS)


def _bowl(pieces, rejects, wall, bowl, rest):
    """A bench of what must be in the bowl, as it opens."""
    controls = (
        Plain("pieces", "Good pieces wanted", "", 10, 400, 10, pieces),
        Control("rejects", "Rejects", "", 0, 50, 1, rejects),
        Control("wall", "Wall", "mm", 0.5, 3, 0.1, wall, us=(0.02, 0.12, 0.005)),
        Control("bowl", "In the bowl at the start", "g", 200, 6000, 20, bowl, us=(7, 210, 1)),
        Control("rest", "No ladle takes up", "g", 0, 400, 10, rest, us=(0, 14, 0.5)),
    )
    choices = (("kind", "Mould", [(name, name) for name in KINDS]), _CAPS)
    return Bench(BowlDay(), controls, _TEETH, choices)


def bowl_bench():
    """What must be in the bowl for an order, and what comes back; it opens with enough."""
    return _bowl(pieces=100, rejects=10, wall=1.5, bowl=1100, rest=70)


def dry_bench():
    """The bowl that ends at the ninth mould of ten."""
    return _bowl(pieces=220, rejects=8, wall=1.5, bowl=900, rest=80)


def mould_bench():
    """Your own mould: cavity by rule and by water, shell and wall by weight, filling to make."""
    return MouldBench()


def drain_picture():
    """What stays on an upright wall, with the spread of the laboratories, and what it shows in words."""
    picture = WallFilm()
    sentence = picture.update()
    place = Pictured(picture, lambda: picture.update() and setattr(place, "value", picture_html(picture)))
    place.value = picture_html(picture)
    return widgets.VBox([widgets.HTML(text_html(sentence), layout=WIDE), place], layout=WIDE)
