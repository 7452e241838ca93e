"""Which part comes from which sheet: the entry point of sheet cutting.

First answers come from a portfolio of constructive rules. Where they do not meet the bound,
proof and search take turns. Everything random has a fixed seed and everything that ends a search
counts work, so that the same problem gives the same sheets; wall-clock time is a backstop only.
"""

from __future__ import annotations

from solver.cutting.constructive_cutting import FEW, portfolio
from solver.cutting.cut_tree import Layout
from solver.cutting.cutting_answer import SheetAnswer, answer_of, nothing_to_cut
from solver.cutting.cutting_problem import CuttingProblem
from solver.cutting.draw_cuts import drawn_sheet
from solver.cutting.goal_search import (
    HARD,
    QUICK,
    improve,
    improve_groups,
    long_answers,
    rescue,
    tidy,
)
from solver.cutting.oversize import refuse_oversize, refuse_scarce
from solver.cutting.padded_sizes import PaddedProblem, pad
from solver.cutting.prove import prove
from solver.cutting.search_state import SearchState
from solver.outcome import Limits

PORTFOLIO_TRIALS = 200_000
"""Places tried by the portfolio for each unit of work [-]."""

SOON = 0.08
"""Work of the first proof: it settles most lists of a shop in a fraction of a second, and
often finds the better answer as well."""
TIDY_TRIALS = 20_000
"""Places tried by the portfolio for each unit of work even where the first answer is proven:
rips, settings and offcuts decide among answers of one price [-]."""


def solve_cutting(problem: CuttingProblem, limits: Limits) -> SheetAnswer:
    """Cut all parts from the cheapest sheets, then the fewest.

    Parameters
    ----------
    problem
        Parts and sheets of one material.
    limits
        Seed, work and wall-clock backstop of the search.

    Returns
    -------
    SheetAnswer
        Every sheet keeps to the stages and the first cut asked for.

    Raises
    ------
    CannotBeDoneError
        Where a part is larger than every sheet, or the stock is too small.
    """
    refuse_oversize(problem)
    padded = pad(problem)
    if not padded.kinds:
        return nothing_to_cut(padded)
    search = SearchState(padded)
    _first(search, limits)
    if search.best is None and not search.stock_too_small:
        rescue(search, limits)
    _close(search, limits)
    if search.best is None:
        raise refuse_scarce(
            padded, problem.sheets, search.left_over or [], proven=search.stock_too_small
        )
    return _answer(problem, padded, search, search.best)


def _first(search: SearchState, limits: Limits) -> None:
    """Try the portfolio until an answer meets the bound, or its work is spent."""
    spent, long = 0, search.padded.part_count > FEW
    for tried, layout in enumerate(portfolio(search.padded)):
        search.offer(layout)
        spent += layout.trials if isinstance(layout, Layout) else 20 * search.padded.part_count
        if tried == 0 and not search.done:
            search.sharpen()
        most = (TIDY_TRIALS if search.done else PORTFOLIO_TRIALS) * limits.work
        if limits.over or (search.best is not None and (long or spent > most)):
            return


def _close(search: SearchState, limits: Limits) -> None:
    """Close the gap from both sides in turn, each time harder; tidy up what was searched for."""
    first = search.best
    if search.goes_on(limits):
        prove(search, limits, SOON)
    if search.padded.part_count > FEW:
        long_answers(search, limits)
        improve_groups(search, limits, 0.2)
    for ladder, tried, proven in ((QUICK, 0.05, 0.02), (HARD, 0.35, 0.1), (HARD, 0.5, 0.2)):
        if search.goes_on(limits):
            improve(search, limits, ladder, tried)
        if search.goes_on(limits):
            prove(search, limits, limits.work * proven)
    if first is not search.best:
        tidy(search, limits, 0.01)


def _answer(
    problem: CuttingProblem, padded: PaddedProblem, search: SearchState, best: Layout
) -> SheetAnswer:
    """Draw the sheets and state what is proven."""
    ids = {i: list(kind.ids) for i, kind in enumerate(padded.kinds)}
    order = sorted(
        best.sheets, key=lambda s: (not s.board.free, s.board.source, -s.used / s.board.area)
    )
    sheets = [drawn_sheet(problem, padded, filled, ids) for filled in order]
    return answer_of(sheets, problem.sheets, padded, search)
