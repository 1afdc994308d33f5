"""A lab day on paper: what to fetch, the timeline, and a bench sheet for each pair with its formulas and cautions."""

import base64

from pastrylab.ground.units import Quantity, both
from pastrylab.page.lab_day.left_over import left_over_words
from pastrylab.page.lab_day.timeline import ROWS, Timeline, flavour_of
from pastrylab.page.parts import part
from pastrylab.trade import chocolate
from pastrylab.trade.orders import requisition, steps_of, table, wait_table
from pastrylab.trade.orders.quantities import grams_up
from pastrylab.trade.planning import by_team, chains, spare
from pastrylab.trade.planning.steps import clock, span

ALWAYS = (
    "Hot cream, sugar and chocolate burn. Handles inwards, dry cloths, somebody told before you carry.",
    "Cream, milk and butter: your local food code says how warm and how long; the clock runs from the hob. In doubt, out.",
    "Wash hands, bench and tools between flavours. Your instructor's word and the packs in your hand prevail.",
)


def lab_day_html(title, found, plan, stock=None, notes=()):
    """A planned order as HTML on pages to print: order, bowls, requisition, timelines, chain, a sheet for each pair.

    title: what is written on top; found: Quantities; plan: a Plan of them; stock: as requisition; notes: what else
    stood on the order. Returns a str; the look
    is in lab_day.css. Raises StudentError as requisition does.
    """
    tasks = {number: mine for number, mine in by_team(plan).items() if mine}
    return str(
        part(
            "lab_day",
            title=title,
            proof=plan.proof,
            ordered=_ordered(found),
            bowls=_bowls(found),
            notes=notes,
            left_over=left_over_words(found),
            requisition=table(requisition([found.ingredients], stock)),
            pictures=_pictures(plan),
            waits=wait_table(plan),
            chains=chains(plan),
            sheets=[_sheet(number, mine, found, plan, notes) for number, mine in tasks.items()],
        )
    )


def requisition_html(title, founds, stock=None, sections=()):
    """The requisition of one order or of several sections as HTML on a page to print.

    title: what is written on top; founds: Quantities, one a section; stock: as requisition; sections: what each makes, in a
    sentence. Returns a str. Raises StudentError as requisition does.
    """
    rows = table(requisition([found.ingredients for found in founds], stock))
    over = [said for found in founds for said in left_over_words(found)]
    return str(part("requisition", title=title, rows=rows, sections=sections, left_over=over))


def _ordered(found):
    rows = [("flavour", "good pieces", "moulds to fill", "pieces cast", "filling to make", "allergens")]
    for one in found.flavours:
        allergens = ", ".join(sorted(one.allergens)) or "none of the nine of US law, by its ingredients"
        rows.append((one.name, one.pieces, f"{one.fills} of {one.mould}", one.cast, _grams(one.filled), allergens))
    return rows


def _bowls(found):
    rows = [("couverture", "in the bowl at the start", "leaves it", "comes back", "brought", "to melt anew")]
    for one in found.bowls:
        masses = (one.in_bowl, one.leaves, one.comes_back, one.brought, one.fresh)
        rows.append((one.couverture, *(_grams(mass) for mass in masses)))
    return rows


def _grams(grams):
    return both(Quantity(grams_up(grams), "g"))


def _pictures(plan):
    for day in range(1, len(plan.lab.hours) + 1):
        opens, closes = plan.lab.hours[day - 1]
        if not any(opens <= one.begins < closes for one in plan.placed):
            continue
        for by in ROWS:
            picture = Timeline()
            picture.update(plan=plan, day=day, by=by)
            yield {"alt": picture.alt, "data": base64.b64encode(picture.png()).decode("ascii")}


def _sheet(number, tasks, found, plan, notes):
    """What one pair has to do, weigh, heed."""
    lab, late = plan.lab, spare(plan, steps_of(found)[1])
    work = [("from", "to", "what", "where", "rests after", "late by", "began")]
    for task in tasks:
        one = task.placed
        where = f"{one.step.machine} {one.machine}" if one.machine else ""
        rest = "; ".join(_rest(after) for after in one.step.after) if not task.cleans else ""
        spared = late[one.step.name]
        by = "" if task.cleans else span(spared) if spared else "no minute"
        work.append((clock(task.begins), clock(task.ends), task.what, where, rest, by, ""))
    mine = {flavour_of(task.placed.step) for task in tasks}
    making = {flavour_of(task.placed.step) for task in tasks if task.what.startswith("make the filling")}
    flavours = [one for one in found.flavours if one.name in mine]
    allergens = sorted({allergen for one in flavours for allergen in one.allergens})
    cautions = [f"Allergens at your bench: {', '.join(allergens)}."] if allergens else []
    return {
        "head": f"Bench sheet: pair {number}" + (f", {lab.station(number)}" if lab.station(number) else ""),
        "work": work,
        "formulas": [formula(one) for one in flavours if one.name in making],
        "bands": bands(flavours),
        "cautions": [*cautions, *(f"On the order: {note}" for note in notes), *ALWAYS],
    }


def _rest(after):
    """A rest as a bench sheet has room for it: "cast: 20 min to 48 h"; all are of the flavour that stands beside."""
    what = after.step.split(":")[0].removeprefix("make the ")
    if after.most is None:
        return f"{what}: {span(after.least)} or more" if after.least else what
    return (
        f"{what}: {span(after.least)} to {span(after.most)}" if after.least else f"{what}: at most {span(after.most)}"
    )


def formula(one):
    """The filling of an Ordered as it is weighed out: its name, rows and a note."""
    old = f", beside {_grams(one.brought)} left over" if one.brought else ""
    rows = [("ingredient", "weigh")]
    rows += [(name, _grams(grams)) for name, grams in one.filling.items()]
    return {
        "name": f"{one.name}, filling",
        "rows": rows,
        "note": f"Together {_grams(one.filled)}, for {one.cast} pieces{old}; each line rounded up to the gram.",
    }


def bands(flavours):
    """Rows of the temperatures of each couverture of some flavours, the headings first; none for no flavour."""
    rows = [("couverture", "melt to", "cool to", "work at")]
    for name in dict.fromkeys(one.couverture for one in flavours):
        bands = (f"{both(low)} to {both(high)}" for low, high in chocolate.band(chocolate.kind_named(name)))
        rows.append((name, *bands))
    return rows if flavours else []
