"""Who does what: the steps and cleanings of a plan shared out among its pairs, nobody in two places."""

import functools
from dataclasses import dataclass

from pastrylab.trade.planning.placed import Placed
from pastrylab.trade.planning.steps import times

_SECONDS = 2.0


@dataclass(frozen=True)
class Task:
    """A piece of work for hands: `what`, from `begins` to `ends`, by the `teams` of these numbers; `placed` is the step it
    belongs to, `cleans` whether it is the cleaning before it.

    >>> from pastrylab.trade.planning.steps import Step
    >>> str(Task("cast", 480, 510, (1,), Placed(Step("cast", 30), 480, 510)))
    '8:00 to 8:30 cast'
    """

    what: str
    begins: int
    ends: int
    teams: tuple[int, ...]
    placed: Placed
    cleans: bool = False

    def __str__(self):
        return f"{times(self.begins, self.ends)} {self.what}"


def shared_out(plan):
    """Every Task of a Plan, by when it begins, each with its teams, numbered from 1.

    A batch stays with the pair that began it where that makes nobody's day longer than it need be; beyond that the work is
    shared evenly. Whoever does it, no pair is in two places: a plan never has more at work at once than there are.

    >>> from pastrylab.trade.planning.plan import make_plan
    >>> from pastrylab.trade.planning.steps import Lab, Step
    >>> plan = make_plan([Step("cast", 30, job="dark"), Step("wash", 30)], (), Lab(2, ((480, 510),)))
    >>> sorted(task.teams for task in shared_out(plan))
    [(1,), (2,)]
    """
    return _shared_out(plan.placed, plan.lab.teams)


@functools.lru_cache(maxsize=16)  # a plan is shown by pair, by sheet and as a table: solved once, and the same in all
def _shared_out(placed, teams):
    work = sorted(_work(placed), key=lambda w: (w[0], w[1], w[3].step.name))
    by_hand = _in_turn(work, teams)
    numbers = _numbered(_evenly(work, teams, by_hand))
    return tuple(
        Task(f"clean {p.step.machine} {p.machine}" if cleans else p.step.name, begins, ends, who, p, cleans)
        for (begins, ends, _, p, cleans), who in zip(work, numbers, strict=True)
    )


def by_team(plan):
    """{number of a pair: its Tasks in order}, pairs with nothing to do among them.

    >>> from pastrylab.trade.planning.plan import make_plan
    >>> from pastrylab.trade.planning.steps import Lab, Step
    >>> plan = make_plan([Step("cast", 30)], (), Lab(2, ((480, 510),)))
    >>> {number: len(tasks) for number, tasks in by_team(plan).items()}
    {1: 1, 2: 0}
    """
    tasks = shared_out(plan)
    return {n: tuple(task for task in tasks if n in task.teams) for n in range(1, plan.lab.teams + 1)}


def _work(placed):
    """(begins, ends, teams, placed, whether it is a cleaning) of all that wants hands."""
    for one in placed:
        if one.step.teams:
            yield one.begins, one.ends, one.step.teams, one, False
        if one.cleaning:
            yield one.cleaned_from, one.cleaned_from + one.cleaning, 1, one, True


def _numbered(chosen):
    """The same teams, numbered in the order in which they begin."""
    order = list(dict.fromkeys(n for who in chosen for n in who))
    return [tuple(sorted(order.index(n) + 1 for n in who)) for who in chosen]


def _in_turn(work, teams):
    """Teams for each piece of work: those of its batch first, then those who have worked least. Always finds some."""
    free, load, known, found = dict.fromkeys(range(1, teams + 1), -1), dict.fromkeys(range(1, teams + 1), 0), {}, []
    for begins, ends, count, placed, _ in work:
        idle = [n for n in free if free[n] <= begins]
        mine = known.setdefault(placed.step.job or placed.step.name, [])
        chosen = sorted(idle, key=lambda n, mine=mine: (n not in mine, load[n], n))[:count]
        for n in chosen:
            free[n], load[n] = ends, load[n] + ends - begins
            mine.append(n)
        found.append(tuple(sorted(chosen)))
    return found


def _evenly(work, teams, first):
    """The same, with the longest day as short and the changes of hands as few as can be found in a moment."""
    from ortools.sat.python import cp_model  # only where planning happens

    cp, minutes = cp_model.CpModel(), [ends - begins for begins, ends, *_ in work]
    does = [[cp.new_bool_var(f"{i} by {n}") for n in range(teams)] for i in range(len(work))]
    longest = cp.new_int_var(0, sum(minutes), "longest day")
    for i, (begins, _, count, _, _) in enumerate(work):
        cp.add(sum(does[i]) == count)
        at_once = [k for k, (b, e, *_) in enumerate(work) if b <= begins < e]
        for n in range(teams):
            cp.add_at_most_one(does[k][n] for k in at_once)
            cp.add_hint(does[i][n], n + 1 in first[i])
    for n in range(teams):
        cp.add(sum(length * does[i][n] for i, length in enumerate(minutes)) <= longest)
    hands = []
    for job in {w[3].step.job for w in work if w[3].step.job}:
        for n in range(teams):
            hand = cp.new_bool_var(f"{job} with {n}")
            hands.append(hand)
            for i, w in enumerate(work):
                if w[3].step.job == job and not w[4]:
                    cp.add_implication(does[i][n], hand)
    # A change of hands is worth a quarter of an hour of somebody's day: our own judgement.
    cp.minimize(longest + 15 * sum(hands))
    asked = cp_model.CpSolver()
    asked.parameters.max_time_in_seconds, asked.parameters.num_workers, asked.parameters.random_seed = _SECONDS, 1, 1
    if asked.solve(cp) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return first
    return [tuple(n + 1 for n in range(teams) if asked.value(row[n])) for row in does]
