"""A share of a whole in exact decimals, beside money: a loss, a markup, a margin."""

import re
from decimal import Decimal

from pastrylab.ground.digits import read_digits
from pastrylab.ground.money import decimal_of
from pastrylab.ground.units import StudentError

# From here on a bare number given as a share is more likely a percentage.
_BARE_SHARE = 10


def share(value, name="the share", at_least=0, above=None, at_most=1, below=None, example="0.75 or 75 %"):
    """A share of the whole as a Decimal: 0.75, Decimal("0.75"), "75 %" or "0,75".

    at_least, above, at_most, below: limits on the share, None for none; name, example: for messages. Where more than the
    whole is possible (a markup), a bare "40" may be 40 % or forty times: it is refused with both ways to write it, as
    is a bare number above 10. Raises StudentError for that, for what is no share, and outside the limits.

    >>> str(share("75 %")), str(share(0.75)), str(share("250 %", at_most=None))
    ('0.75', '0.75', '2.5')
    """
    result, percent = _read_share(value, name, example)
    # As it is written: the float 0.2 is a little more than 0.2, and would refuse what its own message allows.
    at_least, above, at_most, below = (
        limit if limit is None else Decimal(str(limit)) for limit in (at_least, above, at_most, below)
    )
    limits = [
        (at_least is None or result >= at_least, f"at least {at_least}"),
        (above is None or result > above, f"above {above}"),
        (
            at_most is None or result <= at_most,
            f"at most {at_most} (100 %)" if at_most == 1 else f"at most {at_most}",
        ),
        (below is None or result < below, f"below {below}"),
    ]
    shown = f"{(100 * result).normalize():f} %" if percent else f"{result.normalize():f}"
    for kept, words in limits:
        if not kept:
            slip = (
                f" (for {shown} % write {(result / 100).normalize():f} or {shown} %)"
                if not percent and 2 <= result <= 100
                else ""
            )
            raise StudentError(f"{shown} for {name}{slip}", f"a share {words}", example)
    if not percent and result > (1 if isinstance(value, str) else _BARE_SHARE):
        raise StudentError(
            f"{shown} for {name}, which can be read two ways",
            f"{shown} %, or {(100 * result).normalize():f} % for {shown} times the whole",
            f"{shown} %",
        )
    return result


def _read_share(value, name, example):
    """(Decimal, whether it came as a percentage)."""
    if hasattr(value, "dimensionality") and not value.dimensionality:
        return decimal_of(float(value.m_as("")), name, example), any(value.unit_items())
    if not isinstance(value, str):
        return decimal_of(value, name, example), False
    tidy = re.sub(r"\s+", " ", value).strip()
    found = re.fullmatch(r"([\d.,]*\d[.,]?) ?(%|percent|per cent)?", tidy, re.ASCII)
    if not found:
        raise StudentError(f"'{tidy[:40]}' for {name}", "a share from 0 to 1, or a percentage", example)
    result = read_digits(found[1], f"'{tidy[:40]}' for {name}", "a share", True)
    return (result / 100, True) if found[2] else (result, False)
