"""An independent judge of cut sticks: written from the rules alone."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal

from solver.cutting.cutting_answer import StickAnswer
from solver.cutting.cutting_problem import StickProblem
from solver.plan.stocked import Stick


def stick_faults(problem: StickProblem, answer: StickAnswer) -> list[str]:
    """Everything that is wrong with an answer; empty where it is good."""
    found = _stock_faults(problem, answer)
    wanted = {piece.id: piece.length for piece in problem.pieces}
    cut = [piece for stick in answer.stock for piece in stick.pieces]
    if sorted(piece.part for piece in cut) != sorted(wanted):
        return [*found, "each piece once"]
    found += [f"length of {p.part}" for p in cut if p.length != wanted[p.part]]
    for number, stick in enumerate(answer.stock):
        found += [f"stick {number}: {fault}" for fault in _one(problem, stick)]
    bought = [stick for stick in answer.stock if not stick.on_hand]
    if answer.count != len(bought):
        found.append("count")
    if not 0 <= answer.count_bound <= answer.count:
        found.append("bound on the count")
    if answer.cost != sum((stick.price or Decimal(0) for stick in bought), Decimal(0)):
        found.append("cost")
    if not 0 <= answer.cost_bound <= answer.cost:
        found.append("bound on the cost")
    return found


def _one(problem: StickProblem, stick: Stick) -> list[str]:
    found, ends = [], -problem.kerf
    for piece in stick.pieces:
        if piece.start < ends + problem.kerf:
            found.append("less than a kerf apart")
        ends = piece.start + piece.length
    if ends > stick.length:
        found.append("longer than the stick")
    return found if stick.pieces else ["nothing is cut from it"]


def _stock_faults(problem: StickProblem, answer: StickAnswer) -> list[str]:
    used = Counter((stick.stock, stick.length, stick.on_hand) for stick in answer.stock)
    found = []
    for stock in problem.sticks:
        if used[stock.stock, stock.length, True] > stock.on_hand:
            found.append(f"{stock.stock}: more than on hand")
        if stock.limit is not None and used[stock.stock, stock.length, False] > stock.limit:
            found.append(f"{stock.stock}: more than the limit")
    return found
