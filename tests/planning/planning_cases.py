"""Small labs drawn at random, and every plan of one tried."""

import itertools

from planning_rules import broken, cleaning_between

from pastrylab.trade.planning.steps import After, Hold, Lab, Step


def small(draw):
    """(steps, holds, lab) of three or four steps within eight quarters of an hour; draw: a random.Random."""
    count = draw.choice((3, 3, 4))
    names = "abcd"[:count]
    steps = []
    for i, name in enumerate(names):
        after = ()
        if i and draw.random() < 0.6:
            least = draw.choice((0, 0, 15, 30))
            most = draw.choice((None, None, least, least + 15))
            after = (After(draw.choice(names[:i]), least, most),)
        in_machine = draw.random() < 0.6
        steps.append(
            Step(
                name,
                15 * draw.choice((1, 1, 2, 3)),
                after,
                teams=draw.choice((0, 1, 1, 1)),
                machine="bowl" if in_machine else "",
                kind=draw.choice(("dark", "milk")) if in_machine else "",
                allergens=frozenset(draw.choice(((), (), ("tree nuts",), ("milk",)))) if in_machine else frozenset(),
            )
        )
    holds = (Hold("mould", draw.choice((1, 2)), names[0], names[-1]),) if draw.random() < 0.4 else ()
    holds += (Hold("mould", 1, names[1], names[1]),) if holds else ()
    half = ((0, 60), (75, 120)) if draw.random() < 0.3 else ((0, 120),)
    lab = Lab(
        draw.choice((1, 1, 2)),
        half,
        {"bowl": draw.choice((1, 1, 2))},
        {"mould": 2},
        cleaning=draw.choice((0, 15)),
        allergen_cleaning=15,
    )
    return steps, holds, lab


def best_of_all(steps, holds, lab, aim, grid=15):
    """The best value of an aim among all plans, every start and machine tried; None where there is no plan."""
    using = [s.name for s in steps if s.machine]
    better, best = (max if aim == "latest start" else min), None
    for starts in itertools.product(*(range(0, lab.end - s.minutes + 1, grid) for s in steps)):
        times = dict(zip((s.name for s in steps), starts, strict=True))
        if best is not None and better(best, _value(times, (), steps, lab, aim)) == best:
            continue  # cleaning only adds hands and hours
        for numbers in itertools.product(range(1, lab.machines["bowl"] + 1), repeat=len(using)):
            machine = dict.fromkeys(times, 0) | dict(zip(using, numbers, strict=True))
            if broken(times, machine, (), steps, holds, lab):
                continue
            for cleanings in _cleanings(times, machine, steps, holds, lab, grid):
                value = _value(times, cleanings, steps, lab, aim)
                best = value if best is None else better(best, value)
    return best


def _value(times, cleanings, steps, lab, aim):
    if aim == "latest start":
        return min(times.values())
    hands = [(times[s.name], times[s.name] + s.minutes, s.teams) for s in steps if s.teams]
    hands += [(begin, end, 1) for begin, end in cleanings]
    if aim == "evenest work":
        return max((sum(n for b, e, n in hands if b <= at < e) for at, *_ in hands), default=0)
    total = 0
    for opens, closes in lab.hours:
        here = [(b, e) for b, e, _ in hands if opens <= b < closes]
        total += max(e for _, e in here) - min(b for b, _ in here) if here else 0
    return total


def _cleanings(times, machine, steps, holds, lab, grid):
    """Every way in which hands can be found for all cleanings between neighbours, as lists of (begin, end)."""
    gaps, rows = [], {}
    for step in sorted((s for s in steps if s.machine), key=lambda s: times[s.name]):
        rows.setdefault(machine[step.name], []).append(step)
    for row in rows.values():
        for first, then in zip(row, row[1:], strict=False):
            size = cleaning_between(first, then, lab)
            if size:
                low, high = times[first.name] + first.minutes, times[then.name] - size
                gaps.append([(at, at + size) for at in range(low, high + 1, grid)])
    for chosen in itertools.product(*gaps):
        inside = all(any(o <= begin and end <= c for o, c in lab.hours) for begin, end in chosen)
        if inside and not broken(times, machine, chosen, steps, holds, lab):
            yield chosen


def larger(draw):
    """(steps, holds, lab) of three or four flavours over one or two days, some too much for their lab; draw: a Random."""
    steps, holds = [], []
    for flavour in ("dark", "milk", "hazelnut", "caramel")[: draw.choice((3, 4))]:
        nuts = frozenset({"tree nuts"}) if flavour == "hazelnut" else frozenset()
        in_machine = {
            "machine": "bowl",
            "kind": "dark" if flavour in ("dark", "caramel") else "milk",
            "allergens": nuts,
        }
        boil, cast, fill, cap = (f"{what} {flavour}" for what in ("boil", "cast", "fill", "cap"))
        steps += [
            Step(boil, draw.choice((15, 30))),
            Step(cast, draw.choice((15, 30, 45)), **in_machine),
            Step(fill, 15, (After(cast, 15, draw.choice((60, 240))), After(boil, 30, draw.choice((90, 240))))),
            Step(cap, 30, (After(fill, draw.choice((60, 240, 720)), 1440),), **in_machine),
        ]
        holds.append(Hold("mould", draw.choice((1, 2)), cast, cap))
    days = draw.choice((1, 2, 2))
    hours = tuple((1440 * day + 480, 1440 * day + draw.choice((660, 840, 960))) for day in range(days))
    lab = Lab(
        draw.choice((1, 2, 4)),
        hours,
        {"bowl": draw.choice((1, 2))},
        {"mould": draw.choice((2, 3, 6))},
        cleaning=draw.choice((0, 15, 30)),
        allergen_cleaning=45,
    )
    return steps, tuple(holds), lab
