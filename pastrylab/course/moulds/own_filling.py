"""What the formula a reader has in the formula box says of a filling: its density, and what is known of cracks over it."""

from pastrylab.ground.units import StudentError
from pastrylab.page.formula.box import lines_in_force
from pastrylab.trade import moulds
from pastrylab.trade.activity import estimated
from pastrylab.trade.prep.prep_list import read_formula


def formula_in_force():
    """The Formula of the formula box. Raises StudentError where none stands in it, or a line of it is not understood."""
    lines = lines_in_force()
    if not lines.strip():
        raise StudentError(
            "no formula yet",
            "one without open questions in the formula box, which opens in lessons 01, 03, 04 and 05",
            "300 g couverture, 200 g cream",
        )
    return read_formula(lines)


def said_of(formula):
    """(grams to the millilitre, sentences) of a filling by its formula; its water activity is an estimate, with its error."""
    density = moulds.density_of(formula)
    sentences = [
        f"Your formula weighs {density}, without air in it. The first of these stands in the box now. "
        "Whipped, it weighs less: weigh a cup."
    ]
    try:
        activity = estimated(formula)
        middle, half = (activity.low + activity.high) / 2, (activity.high - activity.low) / 2
        sentences.append(f"And the shell? {activity.sentence} {moulds.cracks.floats(middle, half)}")
    except StudentError:
        sentences.append("How wet it is for the shell, its formula alone does not tell: lesson 05 measures it.")
    return density.value, sentences
