"""The spent pod's second life: dry or not by three weighings, every error against the reader; plain arithmetic."""

import pytest

from pastrylab.ground.units import StudentError
from pastrylab.trade import purchasing


@pytest.mark.parametrize(
    ("fresh", "before", "today", "error", "verdict"),
    [
        # 85 % of 30 g is 25.5 g, out by 0.1 + 0.085 g: sure at 25.3 g, open at 25.4 and 25.6, surely not at 25.8.
        (30, 25.3, 25.3, 0.1, True),
        (30, 25.4, 25.4, 0.1, None),
        (30, 25.6, 25.6, 0.1, None),
        (30, 25.8, 25.8, 0.1, False),
        (30, 25.5, 25.5, 0, True),
        (30, 25.51, 25.51, 0, False),
        # 2 % of 25 g is 0.5 g, out by 0.1 + 0.098 g: sure with 0.3 g lost, open with 0.4 and 0.6, surely not with 0.8.
        (30, 25, 24.7, 0.1, True),
        (30, 25, 24.6, 0.1, None),
        (30, 25, 24.4, 0.1, None),
        (30, 25, 24.2, 0.1, False),
        (30, 25, 24.5, 0, True),
        (30, 25, 24.49, 0, False),
        # One pod of 3 g: 2 % of it is less than the scale shows. A coarse scale: nothing can be told.
        (3, 2.4, 2.4, 0.1, None),
        (30, 25, 25, 1, None),
        # Wet from the rinse; still heavier than fresh.
        (30, 36, 33, 0.1, False),
        (30, 33, 33, 0.1, False),
        # Out of the same pods' weighings: a tenth up is the scale.
        (30, 24, 24.2, 0.1, True),
    ],
)
def test_dry_is_said_only_where_the_scale_cannot_be_wrong(fresh, before, today, error, verdict):
    found = purchasing.pods_dry(*(f"{mass} g" for mass in (fresh, before, today, error)))
    assert found.verdict is verdict
    word = {True: "Dry as far as a scale can tell", False: "Not dry", None: "Cannot tell"}[verdict]
    assert found.sentence.startswith(word) and "safe" not in found.sentence
    assert ("bring milk" in found.sentence) == (verdict is True) and ("Damp pods mould" in found.sentence) != (
        verdict is True
    )


def test_a_worse_scale_never_makes_pods_drier():
    for today in range(230, 270):
        surer, less = (
            purchasing.pods_dry("30 g", f"{today / 10 + 0.1} g", f"{today / 10} g", error)
            for error in ("0.05 g", "0.2 g")
        )
        assert surer.verdict is True or less.verdict is not True


def test_what_to_weigh_together_is_enough():
    """ "20 g or more" on a scale of 0.1 g: 20 g that lose nothing can be told, 18 g cannot."""
    assert "weigh 20 g of pods or more" in purchasing.pods_dry("3 g", "2.4 g", "2.4 g").sentence
    assert purchasing.pods_dry("26 g", "20 g", "20 g").verdict is True
    assert purchasing.pods_dry("12 g", "9.8 g", "9.8 g").verdict is None


@pytest.mark.parametrize(
    "weighed",
    [
        ("30 g", "25 g", "25.3 g"),
        ("30", "25 g", "25 g"),
        ("30 g", "25 mL", "25 g"),
        ("0 g", "25 g", "25 g"),
        ("30 g", "25 g", "-1 g"),
        ("30 g", "25 g", "25 g", "-0.1 g"),
        ("30 g", "25 g", "dry"),
    ],
)
def test_weights_that_cannot_be_are_refused(weighed):
    with pytest.raises(StudentError):
        purchasing.pods_dry(*weighed)


def test_what_is_said_of_pods_holds_every_figure():
    """19.7 of 24 g is 82 %; 22 of 24 g is 92 %; 25 - 24.2 g is 0.8 g. 0.65: xerophilic moulds, Beuchat 1981."""
    damp = " Dry on. Damp pods mould, in sugar too: some moulds grow from a water activity of 0.65 on."
    assert purchasing.pods_dry("24 g", "19.8 g", "19.7 g").sentence == (
        "Dry as far as a scale can tell: 82 % of fresh, and no longer losing. Into dry sugar, in a jar that closes. Pods that "
        "steeped in cream bring milk with them: write it on the jar."
    )
    heavy, losing, open_ = (
        purchasing.pods_dry(*weighed).sentence
        for weighed in (("24 g", "22.5 g", "22 g"), ("30 g", "25 g", "24.2 g"), ("3 g", "2.4 g", "2.4 g"))
    )
    assert heavy == "Not dry: 92 % of fresh, and dry pods weigh 85 % or less." + damp
    assert losing == "Not dry: 0.8 g lost since the day before." + damp
    assert open_.endswith("of pods or more together." + damp.removeprefix(" Dry on."))


def test_a_scale_for_jewels_tells_of_one_pod():
    assert purchasing.pods_dry("0.9 g", "0.7 g", "0.7 g", "0.002 g").verdict is True


def test_what_is_weighed_is_said_to_two_figures():
    """Four times 0.123 g by 2 % is 24.6 g, said as 25 g; 25 g - 24.13 g is 0.87 g."""
    assert "weigh 25 g of pods or more" in purchasing.pods_dry("3 g", "2.4 g", "2.4 g", "0.123 g").sentence
    assert "Not dry: 0.87 g lost" in purchasing.pods_dry("30 g", "25 g", "24.13 g").sentence
    assert "Not dry: 1.1 g lost" in purchasing.pods_dry("30 g", "25 g", "23.88 g").sentence  # 1.12 g


def test_a_pack_pays_up_to_its_last_good_pod():
    """25 pods, 92 % of them good: 23. $46 is 23 pods at $2; at $1.99 it is 23.1, one more than there are."""
    assert purchasing.pods_until_bulk_pays("$2", "$46", 25, "92 %") == 23
    with pytest.raises(StudentError, match="a pack of 25 at .46.00 beside single pods at .1.99, which never pays"):
        purchasing.pods_until_bulk_pays("$1.99", "$46", 25, "92 %")
    assert (
        purchasing.pods_until_bulk_pays("$2", "$45", 25) == 23 and purchasing.pods_until_bulk_pays("$0.50", 1, 2) == 2
    )
    assert [float(purchasing.pod_cost("$3", used=used)) for used in (0, 0.5)] == [0, 1.5]
    assert purchasing.pod_cost("$3", credit="$3") == 0  # a credit may be all of it
