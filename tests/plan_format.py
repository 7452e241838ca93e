"""The sentences of the published plan format, asserted on plain JSON.

Nothing of the program is used here but its files: lengths are exact decimals of
millimetres as they stand in the text. :func:`assert_plan_format` takes any plan read with
:func:`load`.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal
from itertools import combinations
from typing import Any, TypeAlias

Data: TypeAlias = dict[str, Any]
LENGTHS = {
    *("x", "y", "z", "width", "height", "depth", "length", "thickness"),
    *("floor", "underside", "top", "above_floor", "lip_above_floor", "lip_below_ceiling"),
    *("headroom", "edge_trim", "kerf", "margin", "start", "end", "at"),
}
MONEY = {"price", "sheets", "mouldings", "stock_bound", "total"}
TICKS_PER_MM = 320


def load(text: str) -> Data:
    """Read the JSON of a plan with every number an exact decimal."""
    data: Data = json.loads(text, parse_float=Decimal, parse_int=Decimal)
    return data


def assert_plan_format(data: Data) -> None:
    """Assert all that the format promises of a plan."""
    assert data["schema"] == "casewright/plan/1"
    assert data["unit"] == data["job"]["job"]["unit"]
    assert len(data["job_hash"]) == 64
    assert data["options"]
    assert data["timing"]["seconds"] >= 0
    for option in data["options"]:
        _option(option, data["job"])
    for later in data["options"][1:]:
        assert "recommended" not in later["tags"], "the recommended option comes first"


def _option(option: Data, job: Data) -> None:
    name = option["name"]
    assert option["status"] in ("optimal", "feasible", "infeasible", "unknown"), name
    assert option["status"] != "infeasible" or option["why"], f"{name}: infeasible says why"
    _numbers({key: option[key] for key in ("cases", "parts", "sheets", "mouldings", "cost")})
    for stage in option["stages"]:
        assert {"name", "value", "bound", "proven"} <= stage.keys(), name
    if not option["cases"]:
        return
    assert [case["name"] for case in option["cases"]] == [case["name"] for case in job["case"]]
    for case in option["cases"]:
        _case(case, option)
    _lines(option)
    _things(option, job)
    _sheets(option)
    _sticks(option)
    _cost(option)


def _numbers(node: Any, key: str = "") -> None:
    """Lengths are whole ticks, masses whole grams, money a decimal text."""
    if isinstance(node, dict):
        for inner, value in node.items():
            _numbers(value, inner)
    elif isinstance(node, list):
        for value in node:
            _numbers(value, key)
    elif key in MONEY:
        assert node is None or (isinstance(node, str) and Decimal(node) >= 0), f"{key} {node!r}"
    elif key in LENGTHS and node is not None:
        assert isinstance(node, Decimal), f"{key} {node!r} is a number"
        assert node * TICKS_PER_MM % 1 == 0, f"{key} {node} is a whole number of ticks"
    elif key in ("mass", "load", "load_limit"):
        assert node % 1 == 0, f"{key} {node} is whole grams"


def _lines(option: Data) -> None:
    """Bays that share lines have their shelves there, and every line is one of some bay."""
    tops = {
        (case["name"], bay["number"]): {case["above_floor"] + s["top"] for s in bay["shelves"]}
        for case in option["cases"]
        for bay in case["bays"]
    }
    for group in option["lines"]:
        shared = [tops[name, number] for name, number in group["bays"]]
        assert len(shared) > 1
        assert max(shared, key=len) == set(group["heights"])
        assert all(one <= set(group["heights"]) for one in shared)


def _case(case: Data, option: Data) -> None:
    counts = [len(bay["shelves"]) for bay in case["bays"]]
    assert counts == option["shelf_counts"][case["name"]]
    assert [bay["number"] for bay in case["bays"]] == list(range(1, len(counts) + 1))
    for bay in case["bays"]:
        _bay(bay)
        listed = {part["id"] for part in option["parts"]}
        assert {shelf["part"] for shelf in bay["shelves"]} <= listed


def _bay(bay: Data) -> None:
    openings, shelves = bay["openings"], bay["shelves"]
    assert [o["index"] for o in openings] == list(range(len(shelves) + 1))
    assert [s["index"] for s in shelves] == list(range(1, len(shelves) + 1))
    heights = sum(o["height"] for o in openings)
    assert heights + sum(s["thickness"] for s in shelves) == bay["inside"]["height"]
    for shelf, under, over in zip(shelves, openings, openings[1:], strict=False):
        assert shelf["top"] == shelf["underside"] + shelf["thickness"]
        assert under["floor"] + under["height"] == shelf["underside"]
        assert over["floor"] == shelf["top"], "opening k stands on shelf k"
    for opening in openings:
        for thing in opening["items"]:
            _thing(thing, opening, bay["inside"])
        for one, other in combinations(opening["items"], 2):
            assert _apart(one, other), f"{one['item']} and {other['item']} share room"


def _thing(thing: Data, opening: Data, inside: Data) -> None:
    name = f"{thing['item']} {thing['number']}"
    top = thing["y"] + thing["height"]
    assert thing["x"] >= 0, name
    assert thing["x"] + thing["width"] <= inside["width"], f"{name} overhangs"
    assert thing["z"] >= 0, name
    assert thing["z"] + thing["depth"] <= inside["depth"], f"{name} overhangs"
    assert thing["headroom"] == opening["height"] - top >= 0, name
    under = [t for t in opening["items"] if _is_under(t, thing)]
    assert thing["on"] is None or len(under) == 1, f"{name} stands on a thing below it"
    on_floor = thing["on"] is None and thing["row"] == 1
    assert (thing["y"] == 0) == on_floor, f"{name}: a front row stands on the shelf"


def _is_under(lower: Data, upper: Data) -> bool:
    footprint = ("item", "x", "z", "width", "depth")
    return (
        lower["number"] == upper["on"]
        and all(lower[key] == upper[key] for key in footprint)
        and lower["y"] + lower["height"] == upper["y"]
    )


def _apart(one: Data, other: Data) -> bool:
    sides = (("x", "width"), ("y", "height"), ("z", "depth"))
    return any(
        one[at] + one[size] <= other[at] or other[at] + other[size] <= one[at] for at, size in sides
    )


def _all_things(option: Data) -> Iterator[Data]:
    for case in option["cases"]:
        for bay in case["bays"]:
            for opening in bay["openings"]:
                yield from opening["items"]


def _things(option: Data, job: Data) -> None:
    """One entry for each physical thing; the rest is left out, and said."""
    placed = Counter(thing["item"] for thing in _all_things(option))
    numbers = Counter((thing["item"], thing["number"]) for thing in _all_things(option))
    left = Counter({left["item"]: int(left["count"]) for left in option["left_out"]})
    assert placed + left == {item["name"]: item["count"] for item in job["item"]}
    assert max(numbers.values(), default=1) == 1
    assert not left or option["status"] != "optimal"


def _sheets(option: Data) -> None:
    parts = {part["id"]: part for part in option["parts"]}
    assert len(parts) == len(option["parts"])
    cut = Counter(piece["part"] for sheet in option["sheets"] for piece in sheet["pieces"])
    assert cut == dict.fromkeys(parts, 1), "every part is cut once"
    for sheet in option["sheets"]:
        for piece in sheet["pieces"]:
            _piece(piece, parts[piece["part"]], sheet)
        for one, other in combinations(sheet["pieces"], 2):
            gaps = [
                max(a[at] - b[at] - b[size] for a, b in ((one, other), (other, one)))
                for at, size in (("x", "length"), ("y", "width"))
            ]
            assert max(gaps) >= sheet["kerf"], f"{one['part']} and {other['part']}: a kerf apart"


def _piece(piece: Data, part: Data, sheet: Data) -> None:
    size = (part["width"], part["length"]) if piece["turned"] else (part["length"], part["width"])
    assert (piece["length"], piece["width"]) == size, piece["part"]
    assert part["material"] == sheet["material"], piece["part"]
    assert not piece["turned"] or part["grain"] == "any", f"{piece['part']} keeps its grain"
    for at, size_of in (("x", "length"), ("y", "width")):
        assert piece[at] >= sheet["edge_trim"], piece["part"]
        assert piece[at] + piece[size_of] <= sheet[size_of] - sheet["edge_trim"], piece["part"]


def _sticks(option: Data) -> None:
    for stick in option["mouldings"]:
        end = -stick["kerf"]
        for piece in sorted(stick["pieces"], key=lambda piece: piece["start"]):
            assert piece["start"] >= end + stick["kerf"], f"{piece['part']}: a kerf apart"
            end = piece["start"] + piece["length"]
        assert end <= stick["length"], "no piece ends beyond its stick"


def _cost(option: Data) -> None:
    """Sheets on hand cost nothing and do not count; the bounds are not above what they bound."""
    bought = [sheet for sheet in option["sheets"] if not sheet["on_hand"]]
    sticks = [stick for stick in option["mouldings"] if not stick["on_hand"]]
    cost = option["cost"]
    assert option["sheet_count"] == len(bought)
    assert option["sheet_bound"] <= option["sheet_count"]
    assert Decimal(cost["sheets"]) == _sum(bought)
    assert Decimal(cost["mouldings"]) == _sum(sticks)
    assert Decimal(cost["stock_bound"]) <= _sum(bought) + _sum(sticks) <= Decimal(cost["total"])
    assert cost["complete"] == all(each["price"] is not None for each in (*bought, *sticks))


def _sum(bought: list[Data]) -> Decimal:
    return sum((Decimal(each["price"] or 0) for each in bought), Decimal(0))
