"""The draft of a label as a piece of a page: the label in a frame, what is known of its names, what to look up first."""

from pastrylab.page.parts import part


def label_html(draft):
    """A `statement.Label` as HTML, each word of it escaped; what is left to the person is a line to write on.

    >>> from pastrylab.trade.statement import label
    >>> "Contains:</b> milk, soybeans" in label_html(label("dark ganache", 12))
    True
    """
    return str(part("label", lines=draft.lines, names=draft.names, asks=draft.asks))
