"""Which exercises two files of values set with other numbers, and whom that reaches: the class, or who gave a number."""

from pastrylab.school.draws import draw

_TRIED = 200  # names; how many of them draw another number


def moved(values, before):
    """Sentences saying what changed from one Values to another, an exercise each, in the order of the newer file. The
    word of the term is left out of it: a new one moves everybody who gave a number.

    >>> from pastrylab.school.exercise_values import values
    >>> now = values()
    >>> moved(now.moved(lambda e, n, g: g.value + (n == "edible") * g.step), now)[0][:56]
    '08.as-purchased: class value changed (edible 360 to 380 '
    """
    said = []
    now, then = _by_exercise(values), _by_exercise(before)
    left_out = {owner for owner, _fault in values.faults}
    for exercise, givens in now.items():
        if exercise in left_out:
            continue  # its fault is said
        if exercise not in then:
            said.append(f"{exercise}: new.")
        elif givens != then[exercise]:
            said.append(f"{exercise}: {_what_changed(exercise, givens, then[exercise], values.word)}")
    said += [f"{exercise}: no longer in the file." for exercise in then if exercise not in {*now, *left_out}]
    return said


def _by_exercise(values):
    found = {}
    for (exercise, name), given in values.givens.items():
        found.setdefault(exercise, {})[name] = given
    return found


def _what_changed(exercise, now, then, word):
    names = list(dict.fromkeys([*now, *then]))
    if list(now) != list(then) and set(now) != set(then):
        odd = ", ".join(f"'{name}'" for name in names if (name in now) != (name in then))
        return f"other givens than before ({odd}): every student has other numbers."
    units = [f"{n} {_unit(then[n])} to {_unit(now[n])}" for n in names if now[n].unit != then[n].unit]
    if units:
        return f"another unit ({', '.join(units)}): every student has other numbers, unless you converted all four."
    values = [f"{n} {then[n].value:g} to {_with_unit(now[n])}" for n in names if now[n].value != then[n].value]
    ranges = [n for n in names if _range(now[n]) != _range(then[n])]
    said = f"class value changed ({', '.join(values)})" if values else "class value as it was"
    if not ranges:
        return (
            f"{said}; students who gave a number draw from low to high and are unaffected, because low, high and step "
            "did not change."
        )
    spans = ", ".join(f"{n} now {now[n].low:g} to {now[n].high:g} by {now[n].step:g}" for n in ranges)
    other = _other_numbers(exercise, now, then, word)
    return f"{said}; low, high or step changed ({spans}): of students who gave a number {other} have other numbers."


def _range(given):
    return given.low, given.high, given.step


def _unit(given):
    return given.unit or "no unit"


def _with_unit(given):
    return f"{given.value:g} {given.unit}".strip()


def _other_numbers(exercise, now, then, word):
    """How many of those who gave a number draw another one, in words."""
    drawn = sum(
        any(draw(exercise, n, now[n], f"{i}", word) != draw(exercise, n, then[n], f"{i}", word) for n in now)
        for i in range(_TRIED)
    )
    if drawn in (0, _TRIED):
        return "all" if drawn else "none"
    return f"about {100 * drawn / _TRIED:.0f} %"
