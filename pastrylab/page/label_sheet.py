"""The draft of a label as a piece of a page: the label in a frame, what is known of its names, what to look up first."""

from pastrylab.page.parts import part


def label_html(draft):
    """A `statement.Label` as HTML, each word of it escaped; what is left to the person is a line to write on.

    >>> from pastrylab.trade.statement import label
    >>> "Contains:</b> milk, soybeans" in label_html(label("dark ganache", 12))
    True
    """
    return str(part("label", lines=draft.lines, names=draft.names, asks=draft.asks))


def labels_html(title, drafts):
    """Drafts of labels to print, as HTML: the labels, then a sheet of what to look up, what they share first.

    >>> from pastrylab.trade.statement import label
    >>> labels_html("Friday", [label("dark ganache", 12)]).count('class="label"')
    1
    """
    common = [ask for ask in drafts[0].asks if all(ask in draft.asks for draft in drafts)]
    own = [(draft, [ask for ask in draft.asks if ask not in common]) for draft in drafts]
    return str(part("labels", title=title, drafts=drafts, common=common, own=own))
