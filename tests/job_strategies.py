"""Small jobs that use everything a job may say: bays, neighbours, lips, pins, toes, open depths.

They are wide where those of :mod:`tests.strategies` are tiny: nothing here is small enough to
try everything, each is small enough to be planned in about a second.
"""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st
from pydantic import ValidationError

from solver.job.job import Job
from tests.builders import make_job
from tests.strategies import lengths

Data = dict[str, Any]
BOARDS = {"in": ["23/32 in", "3/4 in", "18 mm"], "mm": ["18 mm", "17.6 mm", "5/8 in"]}


@st.composite
def _kind(draw: st.DrawFn, unit: str, number: int, most: int) -> Data:
    """One kind of thing with any of the optional keys; now and then too large for the case."""
    optional = {
        "weight": st.sampled_from(["1 g", "400 g", "2 kg", "9 kg"]),
        "gap": st.sampled_from(["0 mm", "1 in", "3 mm"]),
        "guessed": st.booleans(),
        "stack": st.integers(1, 4),
        "rows": st.integers(1, 3),
        "may_lie": st.booleans(),
        "group": st.sampled_from(["one", "two"]),
        "where": st.sampled_from(["low", "eye", "top", 0, 1, 7]),
    }
    return {
        "name": f"thing {number}",
        "width": draw(lengths(1, 12, unit)),
        "height": draw(lengths(1, 12, unit)),
        "depth": draw(lengths(1, 9, unit)),
        "count": draw(st.integers(1, most)),
        **draw(st.fixed_dictionaries({}, optional=optional)),
    }


@st.composite
def _depth(draw: st.DrawFn, unit: str) -> Data:
    """A depth, a range of depths on or off the cutting step, or none."""
    plain = lengths(6, 12, unit)
    kind = draw(st.sampled_from(["given", "given", "open", "wish", "left out"]))
    if kind == "given":
        return {"depth": draw(plain)}
    if kind == "left out":
        return {}
    most = draw(lengths(10, 14, unit))
    least = draw(lengths(4, 7, unit))
    wish = {"wish": draw(lengths(8, 9, unit))} if kind == "wish" else {}
    return {"depth": {"least": least, "most": most, **wish}}


@st.composite
def _case(draw: st.DrawFn, unit: str, number: int, uprights: int) -> Data:
    """One case; its height leaves room for its shelves more often than not."""
    optional = {
        "sizes": st.sampled_from(["outside", "inside"]),
        "kind": st.sampled_from(["hung", "standing", "built-in", "wall"]),
        "above_floor": st.sampled_from(["30 in", "100 mm"]),
        "raised_bottom": st.sampled_from(["2 1/2 in", "80 mm", "1 in"]),
        "joint": st.just("dado"),
        "dado": st.sampled_from(["3/16 in", "5 mm"] if uprights else ["1/4 in", "9 mm"]),
        "back": st.just("none"),
        "back_inset": st.sampled_from(["0 mm", "1/4 in", "7 mm"]),
        "lip": st.sampled_from(
            [{"moulding": "bead", "above": above} for above in ("0 mm", "1/4 in", "18 mm")]
        ),
    }
    pins = {
        "fixing": st.just("pins"),
        "pin_pitch": st.sampled_from(["32 mm", "25 mm", "1 in"]),
        "first_hole": st.sampled_from(["96 mm", "0 mm", "5 in"]),
        "pin_clearance": st.sampled_from(["0 mm", "2 mm", "1/16 in"]),
    }
    shelves = st.one_of(
        st.integers(0, 3),
        st.sampled_from([[1, 2], {"least": 2, "most": 3}]) if not uprights else st.just(2),
    )
    return {
        "name": f"case {number}",
        "width": draw(lengths(12 + 11 * uprights, 32 + 16 * uprights, unit)),
        "height": draw(lengths(22, 44, unit)),
        "uprights": uprights,
        "shelves": draw(shelves),
        "material": "ply",
        "back": "thin ply",
        **draw(_depth(unit)),
        **draw(st.fixed_dictionaries({}, optional=optional)),
        **(draw(st.fixed_dictionaries(pins)) if draw(st.integers(0, 2)) == 0 else {}),
    }


@st.composite
def _cases(draw: st.DrawFn, unit: str) -> list[Data]:
    """One case of one to three bays, or two cases, beside each other or apart."""
    if draw(st.integers(0, 2)):
        return [draw(_case(unit, 1, draw(st.sampled_from([0, 0, 1, 2]))))]
    second = draw(_case(unit, 2, draw(st.integers(0, 1))))
    beside = {"beside": "case 1"} if draw(st.booleans()) else {}
    return [draw(_case(unit, 1, 0)), {**second, **beside}]


@st.composite
def _sheets(draw: st.DrawFn, unit: str) -> list[Data]:
    """Whole sheets of both materials, and now and then a second size, offcuts or scarce stock."""
    optional = {
        "price": st.sampled_from(["92.00", "0.00", "41.50"]),
        "on_hand": st.integers(0, 2),
        "limit": st.sampled_from([3, 12]),
    }
    grain = draw(st.sampled_from(["length", "length", "any"]))
    ply = {"material": "ply", "thickness": draw(st.sampled_from(BOARDS[unit])), "grain": grain}
    some = st.fixed_dictionaries({}, optional=optional)
    sheets = [
        {"name": "whole", "length": "96 in", "width": "48 in", **ply, **draw(some)},
        {
            "name": "thin",
            "material": "thin ply",
            "thickness": draw(st.sampled_from(["6 mm", "7/32 in"])),
            "length": "2500 mm",
            "width": "1250 mm",
            "grain": draw(st.sampled_from(["length", "any"])),
            **draw(some),
        },
    ]
    if draw(st.booleans()):
        sheets.append({"name": "half", "length": "48 in", "width": "48 in", **ply, **draw(some)})
    return sheets


@st.composite
def _moulding(draw: st.DrawFn) -> Data:
    lengths_sold = [{"length": "2400 mm", "price": "9.60"}, {"length": "1200 mm", "on_hand": 1}]
    return {
        "name": "bead",
        "thickness": draw(st.sampled_from(["6 mm", "3/4 in", "12 mm"])),
        "width": draw(st.sampled_from(["40 mm", "1 1/2 in", "60 mm"])),
        "lengths": lengths_sold[: draw(st.integers(1, 2))],
    }


def _look() -> st.SearchStrategy[Data]:
    """Any of the wishes; what is not drawn stays at its default."""
    return st.fixed_dictionaries(
        {"rhythm": st.sampled_from(["even", "symmetric", "graduated", "to-fit"])},
        optional={
            "headroom": st.sampled_from(["0 mm", "1/2 in", "40 mm"]),
            "lift": st.sampled_from(["0 mm", "1 in"]),
            "gap": st.sampled_from(["0 mm", "1 in", "5 mm"]),
            "end_margin": st.sampled_from(["0 mm", "1 in"]),
            "front_margin": st.sampled_from(["0 mm", "1 in", "10 mm"]),
            "clear_least": st.sampled_from(["2 in", "60 mm", "8 in"]),
            "clear_most": st.sampled_from(["14 in", "400 mm"]),
            "spare": st.sampled_from([0, 0.1, 0.33, 0.5]),
            "shelf_load": st.sampled_from(["5 kg", "20 kg"]),
            "step": st.sampled_from(["0 mm", "1 in"]),
            "eye_level": st.sampled_from(["20 in", "1 in"]),
            "tallest": st.sampled_from(["low", "top", "any"]),
            "steepest": st.sampled_from([1.5, 3]),
            "shelf_style": st.sampled_from(["mirrored", "grouped"]),
            "guess_allowance": st.sampled_from(["0 mm", "1/2 in"]),
            "prefer": st.sampled_from(["price", "look"]),
            "price_slack": st.sampled_from([0, 25]),
            "share_lines": st.booleans(),
        },
    )


def _shop() -> st.SearchStrategy[Data]:
    return st.fixed_dictionaries(
        {},
        optional={
            "kerf": st.sampled_from(["0 mm", "1/8 in", "3.2 mm"]),
            "edge_trim": st.sampled_from(["0 mm", "1/4 in"]),
            "margin": st.sampled_from(["0 mm", "1/4 in"]),
            "cutting_step": st.sampled_from(["1 mm", "1/4 in"]),
            "first_cut": st.sampled_from(["rip", "crosscut", "either"]),
            "stages": st.sampled_from(["2", "3", "any"]),
        },
    )


@st.composite
def any_jobs(draw: st.DrawFn, *, kinds: int = 4, most: int = 4) -> Job:
    """Any small job that is valid: one to `kinds` kinds, at most `most` things of each."""
    unit = draw(st.sampled_from(["in", "mm"]))
    cases = draw(_cases(unit))
    items = [draw(_kind(unit, n + 1, most)) for n in range(draw(st.integers(1, kinds)))]
    step = draw(st.sampled_from(["1/16 in", "1/4 in", "1 mm", "5 mm"]))
    try:
        return make_job(
            unit=unit,
            case=cases,
            items=items,
            look=draw(_look()),
            job={"marking_step": step},
            sheet=draw(_sheets(unit)),
            shop=draw(_shop()),
            moulding=[draw(_moulding())],
        )
    except ValidationError:  # a lip wider than its moulding, boards that leave no room
        return draw(st.nothing())
