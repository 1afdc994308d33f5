"""The judgement of lesson 09: a day that runs late, and what may give way."""

from pastrylab.school.engine import Exercise, Option


def _what_gives(g):
    """Too long for the filling, too long for the collection, or neither."""
    if g.stood > g.most:
        return "new filling"
    return "go on" if g.late <= g.spare else "say so"


# "cut the rest" is never the right answer, whatever the numbers: a cap over soft ganache leaks, tomorrow or in the box.
LATE = Exercise(
    id="09.running-late",
    title="It runs late",
    prompt="""The ganache, with cream, was to stand {planned} from the hob to the piping bag; the kitchen's rule, made from the
        local food code, allows {most}. The shells were cast {late} late, and everything behind them moves by as much. By
        the plan there are {spare} between the last box and the moment it is fetched.
        What do you do?""",
    kind="choice",
    answer=_what_gives,
    hint="Two things wait: the ganache for the shells, and the customer for the box. How long does each wait now?",
    lets={
        "stood": lambda g: g.planned + g.late,
        "over": lambda g: abs(g.stood - g.most),
        "lacks": lambda g: abs(g.late - g.spare),
    },
    supposes={"the plan itself keeps to what is allowed": lambda g: g.planned <= g.most},
    options=(
        Option(
            "go on",
            "Go on, everything that much later. No rest is cut.",
            "Hold {stood:min} against the {most:min} that are allowed, and {late:min} against the {spare:min} to spare: one of "
            "them does not hold.",
            "The ganache stands {stood:min}, {most:min} are allowed; the box is ready {lacks:min} before it is fetched.",
        ),
        Option(
            "cut the rest",
            "Cap after a shorter rest. The box is ready in time.",
            "Soft ganache moves under the cap: it leaks, or the cap sinks, tomorrow or in the customer's hand. A rest is the "
            "last thing to give way.",
        ),
        Option(
            "say so",
            "Pipe it, keep every rest, and tell the customer now that it will be later.",
            "Is that needed? The ganache would stand {stood:min} of {most:min}, and the box has {spare:min} to spare for a "
            "delay of {late:min}.",
            "The ganache may still be piped, {stood:min} of {most:min}. But the box is {lacks:min} late, and no rest may pay "
            "for that.",
        ),
        Option(
            "new filling",
            "Throw the ganache away, make a new one, and plan again from now.",
            "It would stand {stood:min}, and {most:min} are allowed: it may be piped. Do not throw food away for a delay it bears.",
            "It would stand {stood:min} where {most:min} are allowed: {over:min} too long for a filling with cream. Nobody "
            "tastes that, and a shorter rest later does not mend it.",
        ),
    ),
    steps=(
        "The ganache: {planned:min bare} + {late:min bare} = {stood:min}; {most:min} are allowed.",
        "The box: {late:min} late, with {spare:min} to spare. The difference is {lacks:min}.",
        "First what can make ill, then what was promised; the rests of the chocolate stay.",
    ),
)
