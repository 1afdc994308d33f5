"""What trim and cooking leave of what was bought, and how much to buy for it. Plain arithmetic, by mass."""

from pastrylab.ground.units import In, Share, StudentError, takes


@takes(trim=Share(), cooking=Share())
def yield_after(trim=0.0, cooking=0.0):
    """The share that is left of what was bought, 0 to 1: (1 - trim loss)(1 - cooking loss), both shares.

    Raises StudentError for a loss of everything.

    >>> f"{yield_after(trim='20 %', cooking='10 %'):.2f}"
    '0.72'
    """
    if trim == 1 or cooking == 1:
        raise StudentError("a loss of everything", "a loss below 100 %", "12 % of trim")
    return (1 - trim) * (1 - cooking)


@takes(
    returns="g",
    edible=In("g", above=0, example="500 g"),
    yield_share=Share(at_least=None, above=0, example='0.85 or "85 %"'),
)
def purchase(edible, yield_share):
    """Mass to buy for a mass to use: edible / yield_share, what trim and cooking leave (see yield_after).

    Raises StudentError for a yield of nothing or of more than there was.

    >>> from pastrylab import show
    >>> show(purchase("360 g", "72 %"))
    '500 g'
    """
    return edible / yield_share
