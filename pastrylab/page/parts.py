"""Parts of a page in HTML, from the templates beside this module: what is put in is escaped, the look is in page.css."""

import base64
import re
from functools import cache

from jinja2 import Environment, PackageLoader
from markupsafe import Markup

__all__ = ["LOOKS", "drawings_html", "part", "picture_html", "text_html"]

LOOKS = ("say", "good", "mend", "note")  # of what is said: a finding, all is well, something to mend, by the way
_UNITS = r"%|Δ?°[CF]|[kmµ]?g|[mc]?L|[mc]?m[²³]?|k?[JW]|[hk]Pa|lb|oz|fl oz|in|ft|min|h|s|[A-Z]{3}"
_BEFORE_ITS_UNIT = re.compile(
    rf"(?<=[\d½⅓⅔¼¾⅛⅜⅝⅞]) (?=(?:{_UNITS})(?:/|(?!\w)))|(?<=\bfl) (?=oz\b)|(?<=\(kg) (?=[Δ°K])"
)


@cache
def _templates():
    loader = PackageLoader("pastrylab.page")
    # Everything is HTML and escaped, whatever its file is called.
    found = Environment(loader=loader, autoescape=True, trim_blocks=True, auto_reload=False)
    found.filters["kept"] = kept_together
    sheet = loader.get_source(found, "page.css")[0]
    found.globals["style"] = {name: " ".join(rule.split()) for name, rule in re.findall(r"\.([\w-]+) {([^}]*)}", sheet)}
    return found


def part(template, **values):
    """A template filled in: a str of HTML, each value escaped unless it is HTML of this house itself (a `Markup`).

    >>> str(part("legend", text="Blue line: sugar & water"))[-35:]
    '>Blue line: sugar &amp; water</div>'
    """
    return Markup(_templates().get_template(f"{template}.html").render(values).strip())


def kept_together(text):
    """A text in which no line ends between a number and its unit. A str; of `Markup` a Markup.

    >>> kept_together("a bowl at 45 °C and 12 fl oz of it").split(" ")
    ['a', 'bowl', 'at', '45\\xa0°C', 'and', '12\\xa0fl\\xa0oz', 'of', 'it']
    """
    return type(text)(_BEFORE_ITS_UNIT.sub("\xa0", text))


def text_html(text, look="say"):
    """What the page says as HTML: escaped, in one of LOOKS; "" for no text. A list of sentences stands one below another.

    >>> '&lt;b&gt;' in text_html("a <b>", "note"), text_html("")
    (True, '')
    """
    return str(part("said", text=text, look=look)) if text else ""


def left_out_html(faults):
    """What is one's own and cannot be used, a sentence each, as HTML; "" for none.

    >>> left_out_html(())
    ''
    """
    return text_html([f"Left out. {fault}" for fault in faults], "mend")


def picture_html(picture):
    """A figure as an image whose alt text states the finding; picture: anything with `png()` and `alt`.

    >>> from pastrylab.page.picture import Picture
    >>> picture = Picture()
    >>> picture.alt = "Needs 633 g of seed."
    >>> picture_html(picture)[:31]
    '<img alt="Needs 633 g of seed."'
    """
    return str(
        part(
            "picture",
            alt=picture.alt,
            narrow=getattr(picture, "narrow", False),
            data=Markup(base64.b64encode(picture.png()).decode("ascii")),
        )
    )


def drawings_html(drawings):
    """Drawings side by side, below each other on a narrow page; each an image with its alt text.

    >>> from pastrylab.page.drawings import SMEARS
    >>> "a clean finger" in drawings_html([SMEARS[0]("A")])
    True
    """
    shown = [{"alt": one.alt, "data": base64.b64encode(one.svg.encode()).decode("ascii")} for one in drawings]
    return str(part("drawings", drawings=shown))
