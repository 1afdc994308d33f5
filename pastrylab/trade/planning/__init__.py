"""A lab day planned backwards: its steps, a plan of them, and what clashes where none fits."""

from pastrylab.trade.planning.clashes import Change, NoPlan
from pastrylab.trade.planning.critical import Link, Times, chain, chains, critical_path
from pastrylab.trade.planning.late_by import spare
from pastrylab.trade.planning.placed import Placed
from pastrylab.trade.planning.plan import AIMS, Plan, by_machine, make_plan, plan_again
from pastrylab.trade.planning.steps import After, Hold, Lab, Step
from pastrylab.trade.planning.teams import Task, by_team, shared_out

__all__ = [
    "AIMS",
    "After",
    "Change",
    "Hold",
    "Lab",
    "Link",
    "NoPlan",
    "Placed",
    "Plan",
    "Step",
    "Task",
    "Times",
    "by_machine",
    "by_team",
    "chain",
    "chains",
    "critical_path",
    "make_plan",
    "plan_again",
    "shared_out",
    "spare",
]
