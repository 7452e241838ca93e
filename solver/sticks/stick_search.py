"""The search for sticks: the gap between best answer and bound is closed, one choice after another.

A choice says how many sticks of each length are bought. All choices are listed that are better than
the best answer and not refuted by the bounds. Each is then refuted or reached by an answer.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from solver.cutting.padded_sizes import Board, PaddedProblem
from solver.outcome import Limits
from solver.sticks.column_generation import ColumnGeneration, FarleyBound, Knapsack
from solver.sticks.diving import Choice, Chooser, cost_unit, dives, whole_cost
from solver.sticks.stick_master import Column
from solver.sticks.stick_state import StickState

ROUNDS = 400
"""Rounds of column generation for one bound [-]."""

DIVE_ROUNDS = 120
"""Rounds of column generation for all dives, for each unit of work [-]."""

OPEN_MOST = 3
"""Choices of sticks that are left open before the search gives up [-]."""

VAIN_MOST = 4
"""Dives for anything cheaper that find nothing, one after the other, before they are ended [-]."""

FEW, MANY = 1_000, 12_000
"""Patterns in the integer program at most, before the dives and after them [-]."""

NODES = 500
"""Nodes of the search tree of an integer program, for each unit of work [-]."""


class StickSearch:
    """The search for something better than the first answers.

    Parameters
    ----------
    columns
        Patterns seen so far.
    """

    def __init__(
        self, state: StickState, knapsack: Knapsack, columns: Sequence[Column], limits: Limits
    ) -> None:
        self.state, self.knapsack, self.limits = state, knapsack, limits
        self.columns = list(columns)
        self.rounds_left = int(DIVE_ROUNDS * limits.work)

    def run(self) -> None:
        """Bound by the linear program; then refute or reach every choice better than the best."""
        state = self.state
        root = self._generator(state.padded)
        state.raise_bound(root.solve(state.padded.demand, ROUNDS, self.limits))
        self.columns = list(root.master.columns)
        if root.failed:
            return
        listed = self._better()
        if listed is None or len(listed) > OPEN_MOST:
            self._dive_freely(root)
            listed = self._better()
        self._in_turn(listed or [])
        self._bound_count()

    def _generator(self, padded: PaddedProblem) -> ColumnGeneration:
        return ColumnGeneration(padded, self.columns, self.knapsack)

    def _better(self) -> list[Goal] | None:
        """List the choices better than the best, if they are not too many; raise the bound."""
        state, padded = self.state, self.state.padded
        if state.done:
            return []
        dearest = max(board.cost for board in padded.boards)
        worst = padded.part_count * dearest + 1, padded.part_count + 1
        listed = goals(padded, state.cost_bound, state.count_bound, state.score or worst)
        if listed is None and state.score is None:
            return [everything(padded)]
        if listed is not None:
            self._refuted_up_to(listed)
        return listed

    def _refuted_up_to(self, rest: list[Goal]) -> None:
        """Note as proven that only the rest of the list may be better than the best."""
        state = self.state
        if rest:
            state.raise_bound(rest[0].cost)
        elif state.score is None:
            state.impossible = True
        else:
            state.raise_bound(state.score[0])
            state.fewest = True

    def _in_turn(self, listed: list[Goal]) -> None:
        """Try the choices, the cheapest first, until one is reached."""
        opened = 0
        for at, goal in enumerate(listed):
            if self.limits.over or opened == OPEN_MOST:
                return
            share = self.rounds_left // min(OPEN_MOST - opened, len(listed) - at)
            choice = self._reach(goal, share)
            opened += not choice.settled
            self.state.offer(choice.columns)
            if opened == 0:
                self._refuted_up_to([] if choice.columns is not None else listed[at + 1 :])
            if choice.columns is not None:
                return

    def _reach(self, goal: Goal, rounds: int) -> Choice:
        """Look for an answer with these sticks; settled where it is found or there is none."""
        padded = goal.within(self.state.padded)
        generator = self._generator(padded)
        bound = generator.solve(padded.demand, ROUNDS, self.limits)
        if bound > goal.cost:
            return Choice(None, settled=True)
        proof = generator.proof
        choice = self._exactly(generator, proof, goal, FEW)
        if choice.settled or self.limits.over:
            return choice
        before = generator.rounds
        for columns in dives(generator, goal.cost, rounds, self.limits):
            if columns is not None:
                return Choice(columns, settled=True)
        self.rounds_left -= generator.rounds - before
        return self._exactly(generator, proof, goal, MANY)

    def _exactly(
        self, generator: ColumnGeneration, proof: FarleyBound, goal: Goal, most: int
    ) -> Choice:
        """Solve the integer program over all patterns of such an answer, if they are few."""
        padded = generator.padded
        patterns = generator.patterns(padded.demand, goal.cost, most, proof)
        if patterns is None:
            return Choice(None, settled=False)
        chooser = Chooser(padded, patterns, padded.demand)
        weigh = whole_cost(padded)
        chooser.at_most(weigh, goal.cost // cost_unit(padded))
        choice = chooser.least(weigh, int(NODES * self.limits.work), self.limits)
        return Choice(choice.columns, choice.settled or choice.columns is not None)

    def _dive_freely(self, root: ColumnGeneration) -> None:
        """Dive for any cheaper answer, with half of the rounds, until some dives find none."""
        stop, vain = root.rounds + self.rounds_left // 2, 0
        while self.state.goes_on(self.limits) and root.rounds < stop and vain < VAIN_MOST:
            if self.state.score is None:
                return
            target = self.state.score[0] - 1
            for columns in dives(root, target, stop - root.rounds, self.limits):
                if self.state.offer(columns):
                    vain = 0
                    break
                vain += 1
                if vain == VAIN_MOST:
                    break
        self.rounds_left -= self.rounds_left // 2

    def _bound_count(self) -> None:
        """Bound the number of sticks to buy, whatever they cost."""
        state = self.state
        known = state.alike or state.score is None or state.score[1] <= state.count_bound
        if known or self.limits.over:
            return
        boards = tuple(replace(b, cost=0 if b.free else 1) for b in state.padded.boards)
        generator = self._generator(replace(state.padded, boards=boards))
        state.raise_count(generator.solve(state.padded.demand, ROUNDS, self.limits))


GOALS_MOST = 300
"""Longest list of choices; where there are more, none are listed [-]."""

STEPS_MOST = 20_000
"""Choices that are looked at in making the list [-]."""


@dataclass(frozen=True, order=True)
class Goal:
    """A choice of sticks to buy: what it costs, how many, and how many of each board."""

    cost: int
    count: int
    numbers: tuple[int, ...]

    def within(self, padded: PaddedProblem) -> PaddedProblem:
        """Return the problem with nothing but these sticks to buy, besides those on hand."""
        boards = tuple(
            board if board.free else replace(board, most=number)
            for board, number in zip(padded.boards, self.numbers, strict=True)
        )
        return replace(padded, boards=boards)


def goals(
    padded: PaddedProblem, cost_least: int, count_least: int, better_than: tuple[int, int]
) -> list[Goal] | None:
    """Return the choices that may suffice, cheapest first; None where there are too many.

    Parameters
    ----------
    cost_least, count_least
        Proven lower bounds.
    better_than
        (cost, sticks to buy) that are to be improved on.
    """
    boards = padded.boards
    free = sum(b.length * (b.most or 0) for b in boards if b.free)
    need = sum(kind.area * kind.count for kind in padded.kinds) - free
    choices: list[Goal] = []
    for tried, numbers in enumerate(_numbers(boards, cost_least, better_than[0], better_than[1])):
        if tried >= STEPS_MOST or len(choices) > GOALS_MOST:
            return None
        goal = _goal(boards, numbers)
        room = sum(n * b.length for n, b in zip(numbers, boards, strict=True))
        if room >= need and goal.cost >= cost_least and goal.count >= count_least:
            choices.append(goal)
    return sorted(goal for goal in choices if (goal.cost, goal.count) < better_than)


def _goal(boards: Sequence[Board], numbers: Sequence[int]) -> Goal:
    cost = sum(n * b.cost for n, b in zip(numbers, boards, strict=True))
    return Goal(cost, sum(numbers), tuple(numbers))


def everything(padded: PaddedProblem) -> Goal:
    """Return the choice of all that can be bought."""
    numbers = [
        0 if b.free else padded.part_count if b.most is None else b.most for b in padded.boards
    ]
    return _goal(padded.boards, numbers)


def _numbers(boards: Sequence[Board], least: int, most: int, count: int) -> Iterator[list[int]]:
    """Yield how many of each board are bought, for `least` to `most` in all.

    Of boards that cost nothing at most `count` are bought.
    """
    if not boards:
        yield []
        return
    board, rest = boards[0], boards[1:]
    top = 0
    if not board.free:
        top = most // board.cost if board.cost else count
        top = top if board.most is None else min(top, board.most)
    last = all(other.free for other in rest)
    first = -(-max(0, least) // board.cost) if last and board.cost else 0
    for number in range(first, top + 1):
        spent = number * board.cost
        for numbers in _numbers(rest, least - spent, most - spent, count):
            yield [number, *numbers]
