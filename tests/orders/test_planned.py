"""`pastrylab plan`: files to print from and to buy by, and sentences where there is nothing to print."""

import csv
import re

import pytest

from pastrylab.desk import commands, planned
from pastrylab.ground.errors import StudentError
from pastrylab.page.lab_day.sheets import lab_day_html
from pastrylab.page.lab_day.timeline import Timeline, rows_of, work_of
from pastrylab.trade.orders import quantities
from pastrylab.trade.orders.day import lab_of, steps_of
from pastrylab.trade.planning import make_plan

pytestmark = pytest.mark.usefixtures("undrawn")

ORDER = "60 dark ganache\nhazelnut praline; 4 dozen\n"


@pytest.fixture(scope="module")
def day():
    found = quantities({"dark ganache": 60, "hazelnut praline": 48}, "10 %")
    return found, make_plan(*steps_of(found), lab_of(), seconds=5)


@pytest.fixture
def order(tmp_path):
    (tmp_path / "order.csv").write_text(ORDER, encoding="utf-8")
    return tmp_path / "order.csv"


def test_an_order_becomes_a_folder(order, tmp_path, capsys):
    out = tmp_path / "friday"
    assert commands.main(["plan", str(order), "--out", str(out), "--rejects", "10 %", "--seconds", "5"]) == 0
    assert "requisition.csv, plan.csv, and day.html, labels.html and requisition.html" in capsys.readouterr().out
    with open(out / "requisition.csv", encoding="utf-8-sig", newline="") as file:
        bought = {row["ingredient"]: row for row in csv.DictReader(file)}
    # 60 / 0.9 = 66.7 pieces are three moulds of 24: 72 pieces; 260 g of cream for 96 pieces, 5 % left in the bag.
    assert bought["heavy cream 36 %"]["needed g"] == str(-(-260 * 72 * 100 // (96 * 95)))
    with open(out / "plan.csv", encoding="utf-8-sig", newline="") as file:
        what = [row["what"] for row in csv.DictReader(file)]
    assert {"cast: dark ganache", "turn out: hazelnut praline"} <= set(what)
    page = (out / "day.html").read_text(encoding="utf-8")
    assert "tree nuts (hazelnuts)" in page and "Bench sheet: pair 1" in page
    assert "http" not in page
    labels = (out / "labels.html").read_text(encoding="utf-8")
    assert labels.count('class="label"') == 2 and "Made in a room with:</b> tree nuts (hazelnuts)" in labels
    assert "5.7 oz (162 g)" in labels and "http" not in labels  # twelve pieces of 1300 / 96 g


def test_labels_of_another_law_and_box(order, tmp_path):
    out = tmp_path / "eu"
    arguments = ["plan", str(order), "--out", str(out), "--law", "EU", "--box", "6", "--seconds", "5"]
    assert commands.main(arguments) == 0
    labels = (out / "labels.html").read_text(encoding="utf-8")
    assert "cream (MILK)" in labels and "Net weight:</b> 81 g" in labels  # 6 x 13.54 g


@pytest.mark.parametrize("wrong", [["--law", "Mars"], ["--box", "0"], ["--box", "many"], ["--box", "2.5"]])
def test_a_law_or_a_box_that_is_none_is_a_sentence_and_nothing_is_written(wrong, order, tmp_path, capsys):
    out = tmp_path / "none"
    assert commands.main(["plan", str(order), "--out", str(out), "--seconds", "5", *wrong]) == 2
    assert "Needed:" in capsys.readouterr().err and not out.exists()


def test_what_does_not_fit_says_so_and_still_says_what_it_takes(tmp_path, capsys):
    (tmp_path / "order.txt").write_text("900 dark ganache", encoding="utf-8")
    out = tmp_path / "out"
    out.mkdir()
    for name in ("plan.csv", "day.html", "labels.html"):
        (out / name).write_text("of last week", encoding="utf-8")
    assert commands.main(["plan", str(tmp_path / "order.txt"), "--out", str(out), "--seconds", "4"]) == 1
    said = capsys.readouterr().out
    assert "It does not fit." in said
    assert sorted(path.name for path in out.iterdir()) == ["requisition.csv", "requisition.html"], (
        "no plan of an earlier order beside it"
    )


@pytest.mark.parametrize("raw", [b"", b"\xff\xfe\x00\x81", b"sixty dark ganache", b"60 pistachio", b"x" * 200_000])
def test_an_order_that_cannot_be_read_is_a_sentence(raw, tmp_path, capsys):
    (tmp_path / "order.csv").write_bytes(raw)
    assert commands.main(["plan", str(tmp_path / "order.csv"), "--out", str(tmp_path / "out")]) == 2
    assert "Needed:" in capsys.readouterr().err
    with pytest.raises(StudentError):
        planned.plan_order(tmp_path / "none.csv", tmp_path / "out")


def test_every_pair_at_work_has_its_sheet_and_every_task_its_line(day):
    found, plan = day
    page = lab_day_html("Friday <b>", found, plan)
    assert "Friday &lt;b&gt;" in page
    rows = rows_of(plan, "pairs")
    assert page.count("Bench sheet: pair") == len(rows)
    assert page.count("☐") == sum(len(bars) for bars in rows.values()) + sum(len(one.filling) for one in found.flavours)
    assert len(work_of(plan)) == 1 + sum(len(bars) for bars in rows.values())


@pytest.mark.parametrize("by", ["pairs", "machines"])
def test_a_timeline_says_when_the_day_begins_and_ends(day, undrawn, by):
    _, plan = day
    picture = Timeline()
    said = picture.update(plan=plan, day=2, by=by)
    opens, closes = plan.lab.hours[1]
    bars = [bar for row in rows_of(plan, by).values() for bar in row if opens <= bar[0] < closes]
    ends = max(bar[1] for bar in bars) % 1440
    assert f"to {ends // 60}:{ends % 60:02d}." in said
    assert undrawn(picture)[:4] == b"\x89PNG"
    assert re.search("Day 2", said)


@pytest.mark.parametrize("seconds", ["nan", "0", "-3", "inf"])
def test_a_time_that_is_none_is_a_sentence(order, tmp_path, capsys, seconds):
    assert commands.main(["plan", str(order), "--out", str(tmp_path / "out"), f"--seconds={seconds}"]) == 2
    assert "1 to 3600 seconds" in capsys.readouterr().err


def test_a_file_in_the_way_of_the_folder_is_a_sentence(order, capsys):
    assert commands.main(["plan", str(order), "--out", str(order), "--seconds", "5"]) == 2
    assert "a folder that can be made" in capsys.readouterr().err
