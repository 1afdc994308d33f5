"""A box to type into whose text is all there when a button is pressed, and the buttons and rows beside it."""

import functools

import ipywidgets as widgets
from IPython import get_ipython
from traitlets import Int

WIDE = widgets.Layout(width="auto")  # not 100 %: a widget's margin comes on top of its width


def field(max_width="420px"):
    """What every labelled box to type in or to choose from gets, as settings: where a page is too narrow for both, the box
    goes below its label instead of shrinking to nothing. max_width: of label and box, CSS.

    >>> field("330px")["layout"].max_width
    '330px'
    """
    layout = widgets.Layout(width="96%", max_width=max_width, height="auto", display="flex", flex_flow="row wrap")
    return {"style": {"description_width": "initial"}, "layout": layout}


class _Typed(widgets.CoreWidget):
    """What makes a box one whose text is used as it stood when a button or Enter was pressed.

    The page holds a box's text back while the kernel still answers to an earlier change of it; the press of a button is
    never held back and can arrive before the text. So a press asks first: the kernel raises `asked`, the page copies it
    to `heard`, and that copy travels on the way of the text, behind it or together with it. No clock is involved.
    A lesson may stand open in two windows: only the copy from the one where the press was made counts.
    """

    asked = Int().tag(sync=True)
    heard = Int().tag(sync=True)

    def __init__(self, **settings):
        # Sent when the box is left or Enter is pressed, so that what is typed after a press is no part of the answer.
        super().__init__(continuous_update=False, **settings)
        self._waiting = []
        self._echo = widgets.jsdlink((self, "asked"), (self, "heard"))

    def when_in(self, callback):
        """Run callback once the text the page shows is here: at once, unless a page is who pressed."""
        page = _page()
        if page is None:
            return callback()
        self._waiting.append((self.asked + 1, page, callback))
        self.asked += 1

    def set_state(self, sync_data):
        """What a page sends. `heard` is looked at here: from the second window it comes as no change."""
        super().set_state(sync_data)
        if "heard" in sync_data:
            self._answered(sync_data["heard"], _page())

    def _answered(self, number, page):
        ready = [one for one in self._waiting if one[0] <= number and one[1] == page]
        self._waiting = [one for one in self._waiting if one not in ready]
        for callback in dict.fromkeys(callback for _, _, callback in ready):  # two presses on one text are one answer
            callback()


class TypedBox(_Typed, widgets.Text):
    """A box of one line; see `on_press` and `on_enter`."""


class TypedPick(_Typed, widgets.Combobox):
    """A box of one line that offers what it knows while one types; see `on_press` and `on_enter`."""


class TypedArea(_Typed, widgets.Textarea):
    """A box of several lines; see `on_press`."""


def _page():
    """The name of the page whose message is being handled, None where no page sent one."""
    kernel = getattr(get_ipython(), "kernel", None)
    header = (kernel.get_parent() or {}).get("header", {}) if kernel else {}
    return header.get("session", "") if header.get("msg_type") == "comm_msg" else None


def answer_box(label, example):
    """A labelled box to type an answer into, with an example in it."""
    return TypedBox(description=label, placeholder=f"for example {example}", **field())


def button(label, hint):
    """A button with a sentence for who hovers over it."""
    return widgets.Button(description=label, tooltip=hint, layout=widgets.Layout(width="auto", min_width="110px"))


def row(*children):
    """Widgets side by side, below each other where the page is narrow."""
    return widgets.Box(list(children), layout=widgets.Layout(display="flex", flex_flow="row wrap", width="100%"))


def on_enter(box, callback):
    """Run callback when Enter is pressed in the box (leaving the box must not count as answering)."""

    def pressed(_box, content, _buffers):
        if content.get("event") == "submit":
            box.when_in(callback) if isinstance(box, _Typed) else callback()

    box.on_msg(pressed)


def on_press(press, boxes, callback):
    """Run callback, without arguments, when the button is pressed and all that stands in its box, or boxes, is in."""
    for box in [boxes] if isinstance(boxes, _Typed) else boxes:
        callback = functools.partial(box.when_in, callback)
    press.on_click(lambda _button, once_in=callback: once_in())


def once_in(boxes, callback):
    """Run callback once all that stands in some boxes is in; for a button whose boxes change."""
    awaited = list(boxes)

    def arrived(box):
        awaited.remove(box)
        if not awaited:
            callback()

    for box in boxes:
        box.when_in(functools.partial(arrived, box))
