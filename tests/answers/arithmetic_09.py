"""Lesson 09 again in plain arithmetic: numbers of exercise_values.csv in, a number or an option's name out.

Nothing here calls the package. `ANSWERS` holds the answers, `ON_THE_WAY` what the worked solution shows before them, as
(number, unit). Shares are in percent, as in the file of values.
"""

# --- when to begin ------------------------------------------------------------------------------------------------


def latest_start(cast, sets, fill, rest, cap, shut, box):
    """A clock that runs backwards from the door, step by step."""
    clock = 0
    for minutes in (box, shut, cap, 60 * rest, fill, sets, cast):
        clock -= minutes
    return -clock


def _latest_start_shown(cast, sets, fill, rest, cap, shut, box):
    return {
        "work": (cast + fill + cap + box, "min"),
        "night": (60 * rest, "min"),
        "rests": (sets + shut, "min"),
    }


def what_holds_it_up(cast, sets, make, cools, fill):
    shells_ready, ganache_ready = cast + sets, make + cools
    begins = shells_ready if shells_ready > ganache_ready else ganache_ready
    return begins + fill


def _what_holds_it_up_shown(cast, sets, make, cools, fill):
    ready = sorted((cast + sets, make + cools))
    return {
        "shells": (cast + sets, "min"),
        "ganache": (make + cools, "min"),
        "last": (ready[1], "min"),
        "spare": (ready[1] - ready[0], "min"),
    }


# --- how much -----------------------------------------------------------------------------------------------------


def moulds_for_boxes(boxes, each, rejects, cavities):
    """Fill moulds until enough of what is cast is good."""
    filled = 0
    while filled * cavities * (100 - rejects) < 100 * boxes * each:
        filled += 1
    return filled


def _moulds_for_boxes_shown(boxes, each, rejects, cavities):
    cast = 100 * boxes * each / (100 - rejects)
    return {
        "good": (boxes * each, ""),
        "kept": (100 - rejects, "percent"),
        "cast": (cast, ""),
        "exact": (cast / cavities, ""),
    }


def cartons_for_two_sections(morning, afternoon, store, carton, usable):
    """Open cartons until there is enough."""
    there, cartons = store, 0
    while there < morning + afternoon:
        there, cartons = there + carton * usable / 100, cartons + 1
    return cartons


def _cartons_for_two_sections_shown(morning, afternoon, store, carton, usable):
    gives = carton * usable / 100
    return {
        "both": (morning + afternoon, "g"),
        "need": (morning + afternoon - store, "g"),
        "gives": (gives, "g"),
        "exact": ((morning + afternoon - store) / gives, ""),
    }


# --- in which order, with what ------------------------------------------------------------------------------------


def nuts_last(kind, allergen):
    """Hazelnut, milk, dark: washed twice. Dark, milk, hazelnut: wiped once."""
    return allergen + allergen - kind


def _nuts_last_shown(kind, allergen):
    return {"worst": (2 * allergen, "min"), "best": (kind, "min")}


def _busiest(batches, machines):
    """Deal the batches out like cards; how many the first machine gets."""
    return len(range(0, int(batches), int(machines)))


def one_more_machine(batches, each, machines):
    return each * _busiest(batches, machines) - each * _busiest(batches, machines + 1)


def _one_more_machine_shown(batches, each, machines):
    before, after = _busiest(batches, machines), _busiest(batches, machines + 1)
    return {
        "more": (machines + 1, ""),
        "before": (before, ""),
        "after": (after, ""),
        "first": (each * before, "min"),
        "second": (each * after, "min"),
        "exact": (batches / machines, ""),
        "shared": (batches / (machines + 1), ""),
    }


# --- late ---------------------------------------------------------------------------------------------------------


def running_late(planned, most, late, spare):
    if planned + late > most:
        return "new filling"
    return "say so" if late > spare else "go on"


def _running_late_shown(planned, most, late, spare):
    over = planned + late - most
    lacks = late - spare
    return {
        "stood": (planned + late, "min"),
        "over": (over if over > 0 else -over, "min"),
        "lacks": (lacks if lacks > 0 else -lacks, "min"),
    }


ANSWERS = {
    "09.latest-start": latest_start,
    "09.what-holds-it-up": what_holds_it_up,
    "09.moulds-for-boxes": moulds_for_boxes,
    "09.cartons-for-two-sections": cartons_for_two_sections,
    "09.nuts-last": nuts_last,
    "09.one-more-machine": one_more_machine,
    "09.running-late": running_late,
}
ON_THE_WAY = {
    "09.latest-start": _latest_start_shown,
    "09.what-holds-it-up": _what_holds_it_up_shown,
    "09.moulds-for-boxes": _moulds_for_boxes_shown,
    "09.cartons-for-two-sections": _cartons_for_two_sections_shown,
    "09.nuts-last": _nuts_last_shown,
    "09.one-more-machine": _one_more_machine_shown,
    "09.running-late": _running_late_shown,
}
