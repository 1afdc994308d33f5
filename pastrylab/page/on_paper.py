"""What a bench or a card is where nothing can be pressed: on paper, in an export, in a notebook opened elsewhere."""

import html
import re

import ipywidgets as widgets
from IPython import get_ipython
from ipywidgets.widgets.widget_selection import _Selection
from markupsafe import Markup

from pastrylab.page.parts import part

_CALLS = re.compile(r'\sonload="[^"]*"')  # a picture that tells a kernel how wide it is: here there is none
_PICTURE = re.compile(r'<img\b[^>]*?alt="([^"]*)"[^>]*>')
_ENDS = re.compile(r"</(?:p|div|li|tr|h\d|caption)>|<br>")
_TAG = re.compile(r"<[^>]+>")


def html_of(widget):
    """A widget and all it holds as HTML to read: texts and pictures as they stand, what is typed or chosen beside its
    label, an empty box as a line to write on. Buttons and sliders are left out. A Markup.

    >>> str(html_of(widgets.HTML("<b>Seed</b>")))
    '<b>Seed</b>'
    """
    return Markup("\n").join(_pieces(widget))


def text_of(widget):
    """The same as plain text; a picture by its alt text.

    >>> text_of(widgets.VBox([widgets.HTML("<p>How much seed?</p>"), widgets.Text(description="Answer")]))
    'How much seed?\\nAnswer: ____________'
    """
    plain = _PICTURE.sub(r"[\1]", str(html_of(widget)))
    plain = _TAG.sub("", _ENDS.sub("\n", plain))
    lines = [" ".join(line.split()) for line in html.unescape(plain).splitlines()]
    return "\n".join(line for line in lines if line)


def also_on_paper():
    """In a notebook, from now on, each widget carries beside its view what stands for it on paper."""
    shell = get_ipython()
    if shell:
        shell.display_formatter.mimebundle_formatter.for_type(widgets.DOMWidget, _bundle)


def _bundle(widget, include=None, exclude=None):
    shown = widget._repr_mimebundle_(include=include, exclude=exclude)
    return {**shown, "text/plain": text_of(widget), "text/html": str(html_of(widget))}


def _pieces(widget):
    if getattr(widget, "layout", None) is not None and widget.layout.display == "none":
        return
    if isinstance(widget, widgets.HTML):
        yield Markup(_CALLS.sub("", widget.value))
    elif isinstance(widget, widgets.Tab | widgets.Accordion):
        for at, child in enumerate(widget.children):
            yield part("on_paper", label=widget.get_title(at))
            yield from _pieces(child)
    elif isinstance(widget, widgets.Box):
        for child in widget.children:
            yield from _pieces(child)
    elif isinstance(widget, _Selection):
        yield part("on_paper", label=widget.description, value=str(widget.label or ""), box=True)
    elif isinstance(widget, widgets.Checkbox):
        yield part("on_paper", label=widget.description, value="yes" if widget.value else "no")
    elif isinstance(widget, widgets.Text | widgets.Textarea):
        yield part("on_paper", label=widget.description, value=str(widget.value), box=True)
