"""The decision variables, named with their indices, and what they mean.

A model is *placed* or *ranked*. In a placed one, opening k is the k-th from below. In a ranked one
it is the k-th highest, and which of them lies on the lowest board and which under the top is
decided: what does not depend on the order of openings is proven there, without its symmetry.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import TypeAlias

from solver.cp_sat import cp_model
from solver.layout.bay_classes import classes_of
from solver.layout.layout_problem import BayShape, Form, LayoutProblem
from solver.layout.levels import Level
from solver.units import Ticks

Linear: TypeAlias = cp_model.LinearExpr | int
"""A whole-number expression, or a number."""


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
    ranked
        True for openings by height; see :func:`solver.layout.bay_classes.can_be_ranked`.
    marks
        Fixed marks, if any: mark numbers by (bay, shelf from 1); for a model of single bays.
    """

    def __init__(
        self,
        model: cp_model.CpModel,
        problem: LayoutProblem,
        *,
        merge: bool,
        ranked: bool = False,
        marks: Mapping[tuple[int, int], int] | None = None,
    ) -> None:
        self.model, self.problem, self.merge, self.ranked = model, problem, merge, ranked
        self.classes = classes_of(problem, merge=merge)
        self._fixed = marks
        self._chosen: list[cp_model.IntVar] = []
        self._lines = {} if ranked or marks else self._make_lines()
        self._marks = {} if ranked else self._make_marks()
        self.at_end: dict[tuple[int, int], tuple[cp_model.IntVar, cp_model.IntVar]] = {}
        """Whether an opening lies on the lowest board, and whether under the top."""
        self._steps = self._make_steps()
        self.levels = {opening: self._make_levels(*opening) for opening in self.openings()}
        self._places = self._make_places()
        self.left = {
            k: model.new_int_var(0, kind.count, f"left[kind={k}]")
            for k, kind in enumerate(problem.kinds)
        }
        self._counts = self._make_counts()
        self._present: dict[tuple[int, int, int], cp_model.IntVar] = {}
        self.all_placed = False
        """Whether it is held that nothing is left out."""

    def openings(self) -> Iterable[tuple[int, int]]:
        """All (class, opening) pairs."""
        return ((c, k) for c, one in enumerate(self.classes) for k in range(one.shape.openings))

    @cached_property
    def home(self) -> dict[int, int]:
        """The class of each bay."""
        return {bay: c for c, one in enumerate(self.classes) for bay in one.bays}

    def shape(self, c: int) -> BayShape:
        """The shape of the bays of class `c`."""
        return self.classes[c].shape

    def mark(self, c: int, shelf: int) -> Linear:
        """Mark number of a shelf, from 1: its underside is at offset + step x this."""
        return self._marks[c, shelf]

    def steps(self, c: int, opening: int) -> Linear:
        """Marking steps that an opening takes; its clear height is its constant and these."""
        return self._steps[c, opening]

    def height(self, c: int, opening: int) -> Linear:
        """Clear height of an opening [tick]."""
        shape = self.shape(c)
        if not self.ranked or shape.shelves == 0:
            return shape.constant(opening) + shape.step * self.steps(c, opening)
        middle = -shape.thickness
        low, high = shape.constant(0) - middle, shape.constant(shape.shelves) - middle
        bottom, top = self.at_end[c, opening]
        return middle + shape.step * self.steps(c, opening) + low * bottom + high * top

    def floor(self, c: int, opening: int) -> Linear:
        """Upper face of the board that an opening stands on, above the room's floor [tick]."""
        shape = self.shape(c)
        if opening == 0:
            return shape.above_floor + shape.floor
        under = shape.offset + shape.step * self._marks[c, opening]
        return shape.above_floor + shape.thickness + under

    def steps_for(self, c: int, opening: int, height: Ticks) -> int:
        """Least steps for a clear height of at least `height` [tick]: rounded up."""
        shape = self.shape(c)
        return -((shape.constant(opening) - height) // shape.step)

    def places(self, c: int, opening: int) -> dict[Form, cp_model.IntVar]:
        """How many places of each form stand in an opening."""
        return self._places[c, opening]

    def by_kind(self, c: int, opening: int) -> dict[int, list[Form]]:
        """The forms that may stand in an opening, by kind."""
        kinds: dict[int, list[Form]] = defaultdict(list)
        for form in self._places[c, opening]:
            kinds[form.kind].append(form)
        return kinds

    def forms(self, c: int, opening: int) -> list[Form]:
        """The forms that may stand in an opening, if it is made as high as can be."""
        shape = self.shape(c)
        return [
            form
            for form in self.problem.forms_in(shape)
            if any(
                self._needs(c, form, at) <= self._most(c, at)
                and self._kind_mass(form) <= shape.load_at(at)
                for at in self._may_be(c, opening)
            )
        ]

    def lines(self) -> list[list[cp_model.IntVar]]:
        """The shelf lines of each group, lowest first; empty where marks are fixed or ranked."""
        return list(self._lines.values())

    def count(self, kind: int, c: int, opening: int) -> Linear:
        """How many things of a kind stand in an opening."""
        return self._counts.get((kind, c, opening), 0)

    def present(self, kind: int, c: int, opening: int) -> Linear:
        """In how many of the bays of a class a kind has a place in an opening; exact of one."""
        key = (kind, c, opening)
        forms = self.by_kind(c, opening).get(kind)
        if not forms:
            return 0
        if key not in self._present:
            self._present[key] = self._make_present(key, forms)
        return self._present[key]

    def level_of(self, form: Form, c: int, opening: int) -> Level:
        """The level that a form needs."""
        return next(one for one in self.levels[c, opening] if one.height >= form.height)

    def least_steps(self, c: int, opening: int) -> int:
        """Steps of the least clear height."""
        return min(self._least(c, at) for at in self._may_be(c, opening))

    def most_steps(self, c: int, opening: int) -> int:
        """Steps that the opening can take at most, with all others at their least."""
        return max(self._most(c, at) for at in self._may_be(c, opening))

    def all(self) -> list[cp_model.IntVar]:
        """Every variable of the model so far, for complete hints."""
        proto = self.model.proto
        return [self.model.get_int_var_from_proto_index(i) for i in range(len(proto.variables))]

    def _may_be(self, c: int, opening: int) -> tuple[int, ...]:
        """Numbers of openings of the bay that stand for what an opening of the model may be."""
        shelves = self.shape(c).shelves
        if not self.ranked or shelves == 0:
            return (opening,)
        return (0, shelves) if shelves == 1 else (0, 1, shelves)

    def _least(self, c: int, at: int) -> int:
        return self.steps_for(c, at, self.problem.wishes.clear_least)

    def _most(self, c: int, at: int) -> int:
        shape, wishes = self.shape(c), self.problem.wishes
        room = self._least(c, at) - sum(self._least(c, k) for k in range(shape.openings))
        if wishes.clear_most is not None:
            room = min(room, (wishes.clear_most - shape.constant(at)) // shape.step)
        return room

    def _needs(self, c: int, form: Form, at: int) -> int:
        return self.steps_for(c, at, self.problem.needed(form, self.shape(c), at))

    def _make_lines(self) -> dict[int, list[cp_model.IntVar]]:
        """Shelf lines of each group, as mark numbers of the group's own count."""
        lines = {}
        for g, group in enumerate(self.problem.groups):
            low, high = self._line_range(group.bays)
            lines[g] = [
                self.model.new_int_var(low, high, f"line[group={g},line={j}]")
                for j in range(1, group.most + 1)
            ]
        return lines

    def _line_range(self, bays: tuple[int, ...]) -> tuple[int, int]:
        shapes = [self.problem.bays[b] for b in bays]
        low = min(s.line + (s.floor - s.offset) // s.step for s in shapes)
        high = max(s.line + (s.floor + s.inside - s.offset) // s.step + 1 for s in shapes)
        return low, high

    def _make_marks(self) -> dict[tuple[int, int], Linear]:
        marks: dict[tuple[int, int], Linear] = {}
        for c, one in enumerate(self.classes):
            shape = one.shape
            lines = self._lines.get(one.group, [])
            for shelf in range(1, shape.shelves + 1):
                if self._fixed is not None:
                    marks[c, shelf] = self._fixed[one.bays[0], shelf]
                elif shape.shelves == len(lines):
                    marks[c, shelf] = lines[shelf - 1] - shape.line
                else:
                    marks[c, shelf] = self._choose_line(c, shelf, lines)
        return marks

    def _choose_line(self, c: int, shelf: int, lines: list[cp_model.IntVar]) -> Linear:
        """A shelf of a bay with fewer shelves takes one of the lines, in order."""
        shape, spare = self.shape(c), len(lines) - self.shape(c).shelves
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
        return mark

    def _make_steps(self) -> dict[tuple[int, int], Linear]:
        steps: dict[tuple[int, int], Linear] = {}
        for c, one in enumerate(self.classes):
            last = one.shape.shelves
            if last == 0:
                steps[c, 0] = 0
                continue
            if self.ranked:
                steps |= self._ranked_steps(c)
                continue
            ends = [0, *(self._marks[c, k] for k in range(1, last + 1)), 0]
            for k in range(last + 1):
                steps[c, k] = ends[k + 1] - ends[k]
        return steps

    def _ranked_steps(self, c: int) -> dict[tuple[int, int], Linear]:
        """Steps of each rank; one rank is the opening on the lowest board, one that at the top."""
        model, count = self.model, self.shape(c).openings
        steps: dict[tuple[int, int], Linear] = {}
        for k in range(count):
            low, high = self.least_steps(c, k), max(self.least_steps(c, k), self.most_steps(c, k))
            steps[c, k] = model.new_int_var(low, high, f"steps[class={c},rank={k}]")
            self.at_end[c, k] = (
                model.new_bool_var(f"bottom[class={c},rank={k}]"),
                model.new_bool_var(f"top[class={c},rank={k}]"),
            )
        for which in (0, 1):
            model.add_exactly_one(self.at_end[c, k][which] for k in range(count))
        for k in range(count):
            model.add_at_most_one(self.at_end[c, k])
        model.add(sum(steps.values()) == 0)
        return steps

    def _make_levels(self, c: int, opening: int) -> tuple[Level, ...]:
        most, at = self.most_steps(c, opening), self._may_be(c, opening)
        by_height: dict[Ticks, tuple[int, ...]] = {}
        for form in self.problem.forms_in(self.shape(c)):
            needs = tuple(self._needs(c, form, k) for k in at)
            if min(needs) <= most:
                by_height[form.height] = needs
        return tuple(
            Level(
                height,
                (needs[0], needs[min(1, len(needs) - 1)], needs[-1]),
                self.model.new_bool_var(f"reached[class={c},opening={opening},height={height}]"),
            )
            for height, needs in sorted(by_height.items())
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

    def _across(self, form: Form, c: int) -> int:
        """How many places of a form stand in one bay at most."""
        kind = self.problem.kinds[form.kind]
        return (self.shape(c).run + kind.gap) // (form.width + kind.gap)

    def _most_places(self, form: Form, c: int) -> int:
        kind = self.problem.kinds[form.kind]
        return min(kind.count // form.things, self.classes[c].times * self._across(form, c))

    def _make_counts(self) -> dict[tuple[int, int, int], Linear]:
        """Things by kind and opening: the places themselves where each place holds one thing."""
        counts: dict[tuple[int, int, int], Linear] = {}
        for (c, k), places in self._places.items():
            for kind, forms in self.by_kind(c, k).items():
                counts[kind, c, k] = sum(form.things * places[form] for form in forms)
        return counts

    def _make_present(self, key: tuple[int, int, int], forms: list[Form]) -> cp_model.IntVar:
        kind, c, k = key
        times, places = self.classes[c].times, self._places[c, k]
        present = self.model.new_int_var(0, times, f"present[kind={kind},class={c},opening={k}]")
        self.model.add(sum(places[form] for form in forms) >= present)
        own = self.problem.kinds[kind].gap
        most = self.shape(c).run + own
        if times > 1:
            self.model.add(sum((f.width + own) * places[f] for f in forms) <= most * present)
        for form in forms:
            each = min(self._across(form, c), self.problem.kinds[kind].count // form.things)
            self.model.add(places[form] <= each * present)
        return present
