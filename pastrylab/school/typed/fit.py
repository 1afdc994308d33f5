"""Is an exercise typed as a row fit to be set? What only its values show, beside what `checking` tries of every exercise."""

from pastrylab.ground.errors import StudentError
from pastrylab.school import draws, engine, exercise_values
from pastrylab.school.typed import cells, rows


def problems(exercise, values=None):
    """Sentences saying what is wrong with an exercise of the sheet that only its class values show, an empty list if nothing.

    Looked at beside what every exercise is tried for: each slip's formula, each name in a text, givens in no text, the
    answer with every given at its lowest and at its highest.

    >>> from pastrylab.ground.files import folder
    >>> examples = folder() / "examples"
    >>> bowls = rows.survey(examples / "own_exercises.csv").exercises["02.larkmoor-bowls"]
    >>> problems(bowls, examples / "exercise_values.csv")
    []
    """
    try:
        values = exercise_values.values(values)
        g = draws.givens(exercise, "", values)
        g.answer = exercise.answer(g)
    except StudentError as error:
        return [f"{exercise.id}: {error}"]
    found = []
    for slip in exercise.slips:
        try:
            slip.wrong(g)
        except StudentError as error:
            found.append(f"{exercise.id}: {error}")
    found += _names_unknown(exercise, g)
    found += [
        f"{exercise.id}: the question does not name the given '{name}'. Needed: {{{name}}} in its text."
        for name in values.of(exercise.id)
        if name not in cells.names_in(exercise.prompt)
    ]
    said_already = found or exercise.how.absurd(exercise.how.in_unit(g.answer))  # of the class values, by `checking`
    return found if said_already else _at_the_ends(exercise, values)


def _names_unknown(exercise, g):
    """A sentence for each name in braces that is no given and no sum."""
    texts = {"column 'question'": exercise.prompt, "column 'hint'": exercise.hint}
    texts |= {f"the sentence of the slip '{slip.name}'": slip.says for slip in exercise.slips}
    known = ", ".join(name for name in vars(g) if name not in exercise.lets and name != "answer")
    for where, text in texts.items():
        for name in cells.names_in(text):
            if name not in vars(g):
                fault = StudentError(f"{rows.SHEET}, {where}: {{{name}}}", f"one of its givens, {known}", "{pieces}")
                yield f"{exercise.id}: {fault}"


def _at_the_ends(exercise, values):
    """What is wrong with the answer where every given stands at its lowest, or every one at its highest."""
    for end in ("low", "high"):
        try:
            trouble = exercise.how.absurd(engine.case(exercise, "", values.moved(end)).expected)
        except StudentError as error:
            trouble = str(error)
        if trouble:
            return [
                f"{exercise.id}: with every given at its '{end}' in exercise_values.csv the answer fails: {trouble}"
            ]
    return []
