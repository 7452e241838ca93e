"""A layout as values of a model's variables, to start its search from."""

from __future__ import annotations

from collections import Counter

from solver.layout.look_scores import Marks, Places, clear_heights
from solver.layout.variables import LayoutVariables


def start_values(v: LayoutVariables, marks: Marks, places: Places) -> dict[str, int]:
    """Return values by name of variable, for a model of any kind: merged or ranked as well.

    `marks` are by (bay, shelf from 1), `places` by (bay, opening). What follows from what stands
    where and from the heights is left to the solver, but for the counts of the first wishes.
    """
    values, used, stand = dict[str, int](), Counter[int](), Counter[int]()
    for c, one in enumerate(v.classes):
        for shelf in range(1, one.shape.openings):
            line = f"line[group={one.group},line={shelf}]"
            if one.shape.shelves == v.problem.groups[one.group].most:
                values[line] = marks[one.bays[0], shelf] + one.shape.line
        heights = clear_heights(v.problem, marks, one.bays[0])
        order = list(range(len(heights)))
        if v.ranked:
            order.sort(key=lambda k: -heights[k])
            values |= _ranks(v, c, order, heights)
        for rank, k in enumerate(order):
            rows = [places.get((bay, k), ()) for bay in one.bays]
            forms = Counter(form for row in rows for form, _ in row)
            top = max((form.height for form in forms), default=-1)
            for level in v.levels[c, rank]:
                values[level.reached.name] = int(level.height <= top)
            for form, x in v.places(c, rank).items():
                values[x.name] = forms[form]
            at = f"class={c},opening={rank}]"
            values[f"empty[{at}"] = sum(not row for row in rows)
            present = Counter(k for row in rows for k in {form.kind for form, _ in row})
            number = Counter(form.kind for form in forms.elements())
            for kind in v.by_kind(c, rank):
                values[f"present[kind={kind},{at}"] = present[kind]
                values[f"odd[kind={kind},{at}"] = number[kind] % 2
                values[f"pairs[kind={kind},{at}"] = number[kind] // 2
            used += present
            for form, count in forms.items():
                stand[form.kind] += form.things * count
    for k, one_kind in enumerate(v.problem.kinds):
        values[f"left[kind={k}]"] = one_kind.count - stand[k]
        values[f"parted[kind={k}]"] = max(0, used[k] - 1)
    return values


def _ranks(v: LayoutVariables, c: int, order: list[int], heights: list[int]) -> dict[str, int]:
    """Steps of each rank, and which of them lies at the bottom and at the top."""
    shape, values = v.shape(c), dict[str, int]()
    for rank, k in enumerate(order):
        values[f"steps[class={c},rank={rank}]"] = (heights[k] - shape.constant(k)) // shape.step
        values[f"bottom[class={c},rank={rank}]"] = int(k == 0)
        values[f"top[class={c},rank={rank}]"] = int(k == shape.shelves)
    return values
