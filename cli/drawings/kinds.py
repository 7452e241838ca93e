"""Which drawings there are of an option, each at the largest scale that the paper takes."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cli.drawings.elevation import elevation
from cli.drawings.keys import key_marks, key_scene
from cli.drawings.pages import rooms
from cli.drawings.scales import to_fit
from cli.drawings.scene import Scene
from cli.drawings.things import Pictures
from solver.built import CasePlan
from solver.plan import Option, Plan

KEY_OFF = 8.0
"""From a drawing to the key below it [mm] on paper."""


@dataclass(frozen=True)
class Subject:
    """What is drawn, and for which paper.

    Attributes
    ----------
    plan, option
        The plan, and the option of it.
    paper
        A key of `scales.PAPERS`.
    pictures
        Pictures of things by name.
    """

    plan: Plan
    option: Option
    paper: str
    pictures: Pictures

    def fit(self, make: Callable[[int], Scene]) -> Scene:
        """Return the scene at the largest standard scale that the paper takes."""
        return to_fit(make, rooms(self.paper), self.plan.unit)


def fronts(subject: Subject) -> Iterator[Scene]:
    """Yield the front elevation of each case, with the key of what stands in it."""
    for case in subject.option.cases:
        yield from _front(subject, case)


def _front(subject: Subject, case: CasePlan) -> Iterator[Scene]:
    plan = subject.plan
    marks = key_marks(plan.job)
    inside = {thing.item for bay in case.bays for one in bay.openings for thing in one.items}

    def alone(scale: int) -> Scene:
        return elevation(case, plan.unit, scale, marks, subject.pictures)

    def with_key(scale: int) -> Scene:
        front = alone(scale)
        width = max(120.0, front.paper_size[0] - 2)
        return below(front, key_scene(plan.job, width, scale, inside))

    bare, both = subject.fit(alone), subject.fit(with_key)
    if both.scale == bare.scale or not inside:
        yield replace(both, name=f"{slug(case.name)}-front")
        return
    yield replace(bare, name=f"{slug(case.name)}-front")
    width = rooms(subject.paper)[0][0] - 2
    key = key_scene(plan.job, width, 1, inside)
    yield replace(key, name=f"{slug(case.name)}-key", title=f"Key of {bare.title.lower()}")


def below(upper: Scene, lower: Scene) -> Scene:
    """Return a scene with another of the same scale below it, on the same left edge."""
    left, bottom, _, _ = upper.bounds
    own_left, _, _, own_top = lower.bounds
    down = lower.moved(left - own_left, bottom - own_top - KEY_OFF * upper.scale)
    return replace(upper, shapes=upper.shapes + down.shapes)


def slug(name: str) -> str:
    """Return a name as part of a file's: letters, digits and hyphens, never empty."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:40] or "case"


KINDS: Mapping[str, Callable[[Subject], Iterator[Scene]]] = {
    "front": fronts,
}
"""The kinds by the word that the command takes; in the order in which they are shown."""


def scenes(subject: Subject, kinds: Sequence[str]) -> list[Scene]:
    """Return the drawings of these kinds, each with a name of its own."""
    found: list[Scene] = []
    names: set[str] = set()
    for kind in KINDS:
        for scene in KINDS[kind](subject) if kind in kinds else ():
            name, number = scene.name, 2
            while name in names:
                name, number = f"{scene.name}-{number}", number + 1
            names.add(name)
            found.append(replace(scene, name=name))
    return found
