"""The decision variables, named with their indices, and what they mean."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from solver.cp_sat import cp_model
from solver.layout.layout_problem import BayShape, Form, LayoutProblem
from solver.units import Ticks

Linear: TypeAlias = cp_model.LinearExpr | int
"""A whole-number expression, or a number."""


@dataclass(frozen=True)
class BayClass:
    """Bays that are alike in every way that the model sees, taken together.

    With more than one bay the model is a relaxation: what fits into their openings of
    one height taken together need not fit bay by bay.
    """

    shape: BayShape
    bays: tuple[int, ...]
    group: int

    @property
    def times(self) -> int:
        """How many bays it stands for [-]."""
        return len(self.bays)


def classes_of(problem: LayoutProblem, *, merge: bool) -> tuple[BayClass, ...]:
    """One class a bay, or with `merge` one class for all bays of a line group that are alike.

    Bays that use some of their group's lines only stay by themselves: each may use others.
    """
    home: dict[tuple[object, ...], list[int]] = defaultdict(list)
    for number, group in enumerate(problem.groups):
        for bay in group.bays:
            alike = replace(problem.bays[bay], case=0, number=0)
            together = merge and alike.shelves == group.most
            home[(number, alike) if together else (number, bay)].append(bay)
    return tuple(
        BayClass(problem.bays[bays[0]], tuple(bays), int(str(key[0]))) for key, bays in home.items()
    )


@dataclass(frozen=True)
class Levels:
    """The nested heights of one opening.

    `steps[i]` is the least number of marking steps the opening must take for level i; the
    boolean `reached[i]` says that it does. An opening tall enough for one thing is tall
    enough for every lower one, so the booleans form a chain.
    """

    steps: tuple[int, ...]
    reached: tuple[cp_model.IntVar, ...]


class LayoutVariables:
    """Creates the variables and answers questions about them by meaning.

    Parameters
    ----------
    model
        The CP-SAT model to create them in.
    problem
        The layout problem.
    merge
        True to take bays that are alike together (a relaxation where there are several).
    marks
        Fixed marks of each class, if any: mark numbers by (class, shelf from 1).
    bare
        True for the marks alone: nothing stands anywhere, and there are no places.
    takes
        The lines, from 1, that a bay with fewer shelves than its group uses, by bay; left
        out, they are decided.

    Attributes
    ----------
    linear
        How far rules go into the linear relaxation: CP-SAT's `linearization_level` [-].
    """

    def __init__(
        self,
        model: cp_model.CpModel,
        problem: LayoutProblem,
        *,
        merge: bool,
        marks: Mapping[tuple[int, int], int] | None = None,
        bare: bool = False,
        takes: Mapping[int, Sequence[int]] | None = None,
    ) -> None:
        self.model, self.problem, self.merge = model, problem, merge
        self.bare, self._takes = bare, takes or {}
        self.linear = 1
        self.classes = classes_of(problem, merge=merge)
        self._chosen: dict[tuple[int, int], cp_model.IntVar] = {}
        self._choices: list[cp_model.IntVar] = []
        self._lines = self._make_lines(marks or {})
        self._marks = self._make_marks(marks or {})
        self.levels = {opening: self._make_levels(*opening) for opening in self.openings()}
        self._places: dict[tuple[int, int], dict[Form, cp_model.IntVar]] = {
            opening: {} for opening in self.openings()
        }
        if not bare:
            self._places = self._make_places()
        self.left = {
            k: model.new_int_var(0, kind.count, f"left[kind={k}]")
            for k, kind in enumerate(problem.kinds)
        }
        self._counts = self._make_counts()

    def openings(self) -> Iterable[tuple[int, int]]:
        """All (class, opening) pairs."""
        return ((c, k) for c, one in enumerate(self.classes) for k in range(one.shape.openings))

    def shape(self, c: int) -> BayShape:
        """The shape of the bays of class `c`."""
        return self.classes[c].shape

    def mark(self, c: int, shelf: int) -> Linear:
        """Mark number of a shelf, from 1: its underside is at offset + step x this."""
        return self._marks[c, shelf]

    def mark_values(self, marks: Mapping[tuple[int, int], int]) -> dict[str, int]:
        """Marks, by (bay, shelf), as values of the variables that decide them, by name."""
        values = {}
        for c, one in enumerate(self.classes):
            lines = self._lines[one.group]
            for shelf in range(1, one.shape.shelves + 1):
                mark = marks[one.bays[0], shelf]
                if (c, shelf) in self._chosen:
                    values[self._chosen[c, shelf].name] = mark
                elif one.shape.shelves == len(lines):
                    values[lines[shelf - 1].name] = mark + one.shape.line
        return values

    def decisions(self) -> list[cp_model.IntVar]:
        """The variables that decide a layout; all others follow from them."""
        lines = [line for group in self._lines.values() for line in group]
        places = [place for opening in self._places.values() for place in opening.values()]
        return [*lines, *self._chosen.values(), *self._choices, *places, *self.left.values()]

    def steps(self, c: int, opening: int) -> Linear:
        """Marking steps that an opening takes; its clear height is its constant and these."""
        last = self.shape(c).shelves
        if last == 0:
            return 0
        above = self._marks[c, opening + 1] if opening < last else 0
        below = self._marks[c, opening] if opening > 0 else 0
        return above - below

    def height(self, c: int, opening: int) -> Linear:
        """Clear height of an opening [tick]."""
        shape = self.shape(c)
        return shape.constant(opening) + shape.step * self.steps(c, opening)

    def steps_for(self, c: int, opening: int, height: Ticks) -> int:
        """Least steps for a clear height of at least `height` [tick]: rounded up."""
        shape = self.shape(c)
        return -((shape.constant(opening) - height) // shape.step)

    def places(self, c: int, opening: int) -> dict[Form, cp_model.IntVar]:
        """How many places of each form stand in an opening."""
        return self._places[c, opening]

    def forms(self, c: int, opening: int) -> list[Form]:
        """The forms that may stand in an opening, if it is made as high as can be."""
        shape, most = self.shape(c), self.most_steps(c, opening)
        return [
            form
            for form in self.problem.forms_in(shape)
            if self.steps_for(c, opening, self.problem.needed(form, shape, opening)) <= most
            and self._kind_mass(form) <= shape.load_at(opening)
        ]

    def lines(self) -> list[list[cp_model.IntVar]]:
        """The shelf lines of each group, lowest first; empty where marks are fixed."""
        return list(self._lines.values())

    def reaches(self, c: int, opening: int, height: Ticks) -> Linear:
        """A boolean (or 0 or 1) that is true only if things of that height may stand there.

        `height` is that of the things [tick]; headroom and lips come on top.
        """
        steps = self.steps_under(c, opening, height)
        if steps <= self.least_steps(c, opening):
            return 1
        levels = self.levels[c, opening]
        for level, reached in zip(levels.steps, levels.reached, strict=True):
            if level >= steps:
                return reached
        return 0

    def steps_under(self, c: int, opening: int, height: Ticks) -> int:
        """Least steps of an opening for things of a height [tick], headroom and lips with it."""
        wishes, (above, below) = self.problem.wishes, self.shape(c).lips(opening)
        room = max(wishes.headroom, above + wishes.lift if above else 0) + below
        return self.steps_for(c, opening, height + room)

    def count(self, kind: int, c: int, opening: int) -> Linear:
        """How many things of a kind stand in an opening."""
        return self._counts.get((kind, c, opening), 0)

    def level_of(self, form: Form, c: int, opening: int) -> int:
        """Index of the level that a form needs, -1 where the opening is always tall enough."""
        steps = self.steps_for(c, opening, self.problem.needed(form, self.shape(c), opening))
        return (
            self.levels[c, opening].steps.index(steps)
            if steps > self.least_steps(c, opening)
            else -1
        )

    def least_steps(self, c: int, opening: int) -> int:
        """Steps of the least clear height."""
        return self.steps_for(c, opening, self.problem.wishes.clear_least)

    def most_steps(self, c: int, opening: int) -> int:
        """Steps that the opening can take at most, with all others at their least."""
        shape, wishes = self.shape(c), self.problem.wishes
        others = sum(self.least_steps(c, k) for k in range(shape.openings) if k != opening)
        room = -others
        if wishes.clear_most is not None:
            room = min(room, (wishes.clear_most - shape.constant(opening)) // shape.step)
        return room

    def all(self) -> list[cp_model.IntVar]:
        """Every variable of the model so far, for complete hints."""
        proto = self.model.proto
        return [self.model.get_int_var_from_proto_index(i) for i in range(len(proto.variables))]

    def _make_lines(self, marks: Mapping[tuple[int, int], int]) -> dict[int, list[cp_model.IntVar]]:
        """Shelf lines of each group, as mark numbers of the group's own count."""
        lines: dict[int, list[cp_model.IntVar]] = {}
        for g, group in enumerate(self.problem.groups):
            low, high = self._line_range(group.bays)
            lines[g] = (
                []
                if marks
                else [
                    self.model.new_int_var(low, high, f"line[group={g},line={j}]")
                    for j in range(1, group.most + 1)
                ]
            )
        return lines

    def _line_range(self, bays: tuple[int, ...]) -> tuple[int, int]:
        shapes = [self.problem.bays[b] for b in bays]
        low = min(s.line + (s.floor - s.offset) // s.step for s in shapes)
        high = max(s.line + (s.floor + s.inside - s.offset) // s.step + 1 for s in shapes)
        return low, high

    def _make_marks(self, fixed: Mapping[tuple[int, int], int]) -> dict[tuple[int, int], Linear]:
        marks: dict[tuple[int, int], Linear] = {}
        for c, one in enumerate(self.classes):
            shape, lines = one.shape, self._lines[one.group]
            for shelf in range(1, shape.shelves + 1):
                if fixed:
                    marks[c, shelf] = fixed[c, shelf]
                elif shape.shelves == len(lines):
                    marks[c, shelf] = lines[shelf - 1] - shape.line
                else:
                    marks[c, shelf] = self._choose_line(c, shelf, lines)
        return marks

    def _choose_line(self, c: int, shelf: int, lines: list[cp_model.IntVar]) -> Linear:
        """A shelf of a bay with fewer shelves takes one of the lines, in order."""
        shape, spare = self.shape(c), len(lines) - self.shape(c).shelves
        taken = self._takes.get(self.classes[c].bays[0])
        if taken is not None:
            return lines[taken[shelf - 1] - 1] - shape.line
        low, high = self._line_range(self.classes[c].bays)
        mark = self.model.new_int_var(
            low - shape.line, high - shape.line, f"mark[class={c},shelf={shelf}]"
        )
        choices = []
        for j in range(shelf - 1, shelf + spare):
            chosen = self.model.new_bool_var(f"takes[class={c},shelf={shelf},line={j + 1}]")
            self.model.add(mark == lines[j] - shape.line).only_enforce_if(chosen)
            choices.append(chosen)
        self.model.add_exactly_one(choices)
        self._chosen[c, shelf] = mark
        self._choices += choices
        return mark

    def _make_levels(self, c: int, opening: int) -> Levels:
        least, most = self.least_steps(c, opening), self.most_steps(c, opening)
        shape = self.shape(c)
        needs = {
            self.steps_for(c, opening, self.problem.needed(form, shape, opening))
            for form in self.problem.forms_in(shape)
        }
        steps = tuple(sorted(s for s in needs if least < s <= most))
        return Levels(
            steps,
            tuple(
                self.model.new_bool_var(f"reached[class={c},opening={opening},steps={s}]")
                for s in steps
            ),
        )

    def _make_places(self) -> dict[tuple[int, int], dict[Form, cp_model.IntVar]]:
        return {
            (c, k): {
                form: self.model.new_int_var(
                    0,
                    self._most_places(form, c),
                    f"places[kind={form.kind},form={self._form_number(form)},class={c},opening={k}]",
                )
                for form in self.forms(c, k)
            }
            for c, k in self.openings()
        }

    def _form_number(self, form: Form) -> int:
        return self.problem.kinds[form.kind].forms.index(form)

    def _kind_mass(self, form: Form) -> int:
        return self.problem.kinds[form.kind].mass

    def _most_places(self, form: Form, c: int) -> int:
        shape, kind = self.shape(c), self.problem.kinds[form.kind]
        across = (shape.run + kind.gap) // (form.width + kind.gap)
        return min(-(-kind.count // form.things), self.classes[c].times * across)

    def _make_counts(self) -> dict[tuple[int, int, int], Linear]:
        """Things by kind and opening: the places themselves where each place holds one thing."""
        counts: dict[tuple[int, int, int], Linear] = {}
        for (c, k), places in self._places.items():
            by_kind: dict[int, list[Form]] = defaultdict(list)
            for form in places:
                by_kind[form.kind].append(form)
            for kind, forms in by_kind.items():
                counts[kind, c, k] = sum(form.things * places[form] for form in forms)
        return counts
