"""A cheap tool or a dear one: what its uses cost, and which of them may touch food."""

from dataclasses import dataclass

from pastrylab.ground.money import Money, common_currency, money
from pastrylab.ground.units import StudentError
from pastrylab.trade.purchasing.packs import whole_number


@dataclass(frozen=True)
class Tool:
    """A tool: price, uses in its life, upkeep for each use (such as washing), whether it may touch food.

    >>> print(Tool.of("brush", "$9", 60, food_safe=True).price)
    $9.00
    """

    name: str
    price: Money
    life: int
    upkeep: Money
    food_safe: bool

    @classmethod
    def of(cls, name, price, life, upkeep=0, food_safe=False):
        """Tool.of("brush", "$9", 60, food_safe=True). Raises StudentError."""
        cost, each = money(price, f"the price of the {name}"), money(upkeep, f"the upkeep of the {name}")
        common_currency(cost, each)
        return cls(name, cost, whole_number(life, f"the uses of the {name}", example="25"), each, bool(food_safe))


def tool_cost(tool, uses):
    """Cost (Money) of `uses`: every tool worn out on the way is bought whole, upkeep is paid for each use.

    uses: a whole number of at least 1. Raises StudentError.

    >>> print(tool_cost(Tool.of("brush", "$4", 5, upkeep="$0.10"), 6))
    $8.60
    """
    number = whole_number(uses, "the uses", example="25")
    return tool.price * -(-number // tool.life) + tool.upkeep * number


def compare_tools(tools, uses, touches_food=True):
    """(tool, cost of `uses`) for the tools that may do the job, cheapest first.

    tools: Tools; uses: a whole number of at least 1; touches_food: whether the job does; if so, tools that are not
    food-contact safe are left out. Raises StudentError where none remains.

    >>> cheap, dear = Tool.of("brush", "$4", 5), Tool.of("good brush", "$12", 60, food_safe=True)
    >>> [(tool.name, str(cost)) for tool, cost in compare_tools([cheap, dear], 30)]
    [('good brush', '$12.00')]
    """
    fit = [tool for tool in tools if tool.food_safe or not touches_food]
    if not fit:
        raise StudentError("no tool that may touch food", "one that is sold as food-contact safe", "food_safe=True")
    costed = [(tool, tool_cost(tool, uses)) for tool in fit]
    common_currency(*(cost for _, cost in costed))
    return sorted(costed, key=lambda pair: pair[1])
