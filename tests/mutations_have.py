"""For each rule on what is there, a change that breaks it in a good plan, and only it."""

from __future__ import annotations

from solver.checking.findings import Code
from solver.plan.on_hand import UsedPiece
from solver.plan.plan import Plan
from tests.edits import in_job, in_option, more, put
from tests.mutations_cutting import Change


def _used(part: str, path: str, value: object) -> Change:
    """A change of what is told of one part that is there."""

    def change(plan: Plan) -> Plan:
        have = plan.options[0].have
        at = next(n for n, one in enumerate(have.used if have else ()) if one.part == part)
        return put(plan, f"options.0.have.used.{at}.{path}", value)

    return change


def _twice(used: tuple[UsedPiece, ...]) -> tuple[UsedPiece, ...]:
    return (*used, used[0])


HAVE: dict[Code, tuple[Change, frozenset[Code]]] = {
    Code.HAVE_OUTCOME: (
        in_option("have", None),
        frozenset({Code.CUT_PART_MISSING, Code.STICK_PART_MISSING, Code.SCORES_BOARD_USED}),
    ),
    Code.HAVE_UNKNOWN: (_used("alcove/side-left", "how", "fixed"), frozenset()),
    Code.HAVE_COUNT: (in_option("have.left.0.count", more(1)), frozenset()),
    Code.HAVE_PART: (in_option("have.used", _twice), frozenset({Code.HAVE_COUNT})),
    Code.HAVE_SIZE: (in_job("have.1.width", more(-8128)), frozenset({Code.HAVE_REST})),
    Code.HAVE_REST: (_used("alcove/shelf-1", "rests.0.length", more(1)), frozenset()),
    Code.HAVE_STOCK: (in_job("have.3.length", more(1)), frozenset()),
    Code.HAVE_MARK: (in_job("have.4.mark", more(508)), frozenset()),
    Code.HAVE_AGAIN: (in_option("have.again", ()), frozenset()),
}
