"""Ruin and recreate, compiled: fit all parts on given sheets.

After Gardeyn and Wauters (goal-driven ruin and recreate, EJOR). The sheets are fixed and some
parts are left over. In each step neighbouring pieces are taken off and placed anew together with
the parts left over, until none is. A worse layout is accepted now and then (simulated annealing).
"""

from __future__ import annotations

import numpy as np

from solver.cutting.compiled import compiled
from solver.cutting.compiled_place import (
    BEFORE,
    CUT_AT,
    LEFT,
    NOW,
    STEPS,
    VERSION,
    WASTE_AT,
    WAY_AT,
    Chance,
    Floats,
    Parts,
    State,
    find,
    random_number,
    worth_of,
)
from solver.cutting.compiled_tree import (
    KIND,
    NONE,
    PARENT,
    PIECES,
    Ints,
    Limits2D,
    Trees,
    copy_sheet,
    put,
    take_off,
)

BLINK = 0.02
"""Share of sheets that are skipped at random, so that searches differ [-]."""
RUINED = 8.0
"""Pieces taken off in one step, on average [-]."""
ELSEWHERE = 0.4
"""Chance that the next piece is taken off another sheet [-]."""
CLIMB = 0.6
"""Chance that a piece's neighbours go with it, one level of cuts after the other [-]."""
NOISE = 0.2
"""By how much the order of placing varies at random [-]."""
OFFCUT = 0.01
"""What a sheet of free waste in one piece is worth, in sheets of leftover parts [-]."""
STEP = 300
"""Work of a step apart from the places tried, in places [-]."""
HEAT = 0.01
"""Temperature at first: how much worse a step may be, in sheets of leftover parts [-]."""


@compiled
def save_sheet(state: State, s: int, touched: Ints, count: int, marked: Ints) -> int:
    """Save a sheet before its first change in a step; return how many are saved."""
    if marked[s]:
        return count
    marked[s], touched[count] = 1, s
    copy_sheet(state.trees, state.saved, s)
    state.worth[BEFORE, s] = state.worth[NOW, s]
    state.known.version[BEFORE, s] = state.known.version[NOW, s]
    return count + 1


@compiled
def mark_changed(state: State, s: int) -> None:
    """Give a sheet a new version: the places known on it hold no longer."""
    state.at[VERSION] += 1
    state.known.version[NOW, s] = state.at[VERSION]


@compiled
def random_piece(trees: Trees, s: int, chance: Chance) -> int:
    """Return at random a piece of a sheet, or an inner node that holds it."""
    pick = int(random_number(chance) * trees.counts[s, PIECES])
    node = -1
    while pick >= 0:
        node += 1
        if trees.nodes[s, KIND, node] >= 0:
            pick -= 1
    while trees.nodes[s, PARENT, node] != NONE and random_number(chance) < CLIMB:
        node = trees.nodes[s, PARENT, node]
    return int(node)


@compiled
def ruin(
    state: State, limits: Limits2D, waiting: Ints, count: int, nodes: Ints, touched: Ints,
    marked: Ints,
) -> tuple[int, int]:  # fmt: skip
    """Take pieces off some sheets; return how many wait and how many sheets are saved."""
    trees, chance = state.trees, state.chance
    sheets, saved = trees.counts.shape[0], 0
    wanted = count + 1 + int(-np.log(1.0 - random_number(chance)) * RUINED)
    s = int(random_number(chance) * sheets)
    for turn in range(8):
        if count >= wanted:
            break
        if turn > 0 and random_number(chance) < ELSEWHERE:
            s = int(random_number(chance) * sheets)
        if trees.counts[s, PIECES] == 0:
            s = int(random_number(chance) * sheets)
            continue
        saved = save_sheet(state, s, touched, saved, marked)
        count = take_off(trees, s, random_piece(trees, s, chance), waiting, count, nodes, limits)
        mark_changed(state, s)
    return count, saved


@compiled
def sort_waiting(waiting: Ints, count: int, keys: Floats, order: Floats, state: State) -> None:
    """Sort the waiting kinds, largest first, by one order with some noise."""
    for i in range(count):
        keys[i] = order[waiting[i]] * (1 - NOISE * random_number(state.chance))
    for i in range(1, count):
        key, kind, at = keys[i], waiting[i], i
        while at > 0 and keys[at - 1] < key:
            keys[at], waiting[at] = keys[at - 1], waiting[at - 1]
            at -= 1
        keys[at], waiting[at] = key, kind


@compiled
def recreate(
    state: State, parts: Parts, limits: Limits2D, waiting: Ints, count: int, touched: Ints,
    marked: Ints, saved: int, failed: Ints,
) -> tuple[int, int]:  # fmt: skip
    """Place each waiting kind at its best place; return sheets saved and places tried."""
    step, tried, left = state.at[STEPS], 0, 0
    blink = BLINK if step > 1 else 0.0
    for i in range(count):
        kind = waiting[i]
        s = NONE
        if failed[kind] != step:
            s, more = find(state, kind, parts, limits, blink)
            tried += more
        if s == NONE:
            failed[kind] = step
            state.left[left] = kind
            left += 1
            continue
        saved = save_sheet(state, s, touched, saved, marked)
        place = state.known.place[kind, s]
        lie = parts.lies[kind, place[WAY_AT]]
        put(state.trees, s, place[WASTE_AT], kind, lie, place[CUT_AT], limits)
        mark_changed(state, s)
    state.at[LEFT] = left
    return saved, tried


@compiled
def copy_numbers(source: Ints, target: Ints, count: int) -> None:
    """Copy the first `count` numbers; a loop compiles in a fraction of a slice's time."""
    for i in range(count):
        target[i] = source[i]


@compiled
def cost_of(state: State, parts: Parts) -> float:
    """Area left over, less a little for free waste in large pieces, in largest sheets [-]."""
    total = 0.0
    for i in range(state.at[LEFT]):
        total += parts.areas[state.left[i]]
    for s in range(state.worth.shape[1]):
        total -= OFFCUT * state.worth[NOW, s]
    return total


@compiled
def run(state: State, parts: Parts, limits: Limits2D, done: int, chunk: int, whole: int) -> int:
    """Search for `chunk` more tries, or until nothing is left over; return the tries made.

    `done` of `whole` tries are behind: the temperature falls with them [-].
    """
    trees, at = state.trees, state.at
    room = state.left.shape[0]
    waiting, before = np.zeros(room, np.int64), np.zeros(room, np.int64)
    keys, nodes = np.zeros(room), np.zeros(trees.nodes.shape[2], np.int64)
    touched = np.zeros(trees.counts.shape[0], np.int64)
    marked = np.zeros(trees.counts.shape[0], np.int64)
    failed = np.zeros(parts.ways.shape[0], np.int64)
    tried = 0
    while at[LEFT] > 0 and tried < chunk:
        at[STEPS] += 1
        left, saved = at[LEFT], 0
        copy_numbers(state.left, before, left)
        copy_numbers(state.left, waiting, left)
        count = left
        if at[STEPS] > 1:
            count, saved = ruin(state, limits, waiting, left, nodes, touched, marked)
            order = int(random_number(state.chance) * parts.orders.shape[0])
            sort_waiting(waiting, count, keys, parts.orders[order], state)
        saved, more = recreate(state, parts, limits, waiting, count, touched, marked, saved, failed)
        tried += more + STEP
        for i in range(saved):
            state.worth[NOW, touched[i]] = worth_of(trees, touched[i], limits)
            marked[touched[i]] = 0
        cost = cost_of(state, parts)
        heat = HEAT * max(0.0, 1 - (done + tried) / whole)
        allowed = state.cost[0] - heat * np.log(1.0 - random_number(state.chance))
        if at[LEFT] == 0 or at[STEPS] == 1 or cost <= allowed:
            state.cost[0] = cost
            continue
        for i in range(saved):
            s = touched[i]
            copy_sheet(state.saved, trees, s)
            state.worth[NOW, s] = state.worth[BEFORE, s]
            state.known.version[NOW, s] = state.known.version[BEFORE, s]
        copy_numbers(before, state.left, left)
        at[LEFT] = left
    return tried
