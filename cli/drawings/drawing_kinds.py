"""Which drawings there are of an option, each as large as the paper takes, and as which files."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from cli.drawings.cutting_diagram import cut_rows, sheet_scene
from cli.drawings.dxf import dxf
from cli.drawings.fonts import text_width
from cli.drawings.front_elevation import bays_alike, elevation, joint_elevation, neighbours
from cli.drawings.keys import key_marks, key_scene, wrapped
from cli.drawings.marking_drawing import back_marking, marking
from cli.drawings.marks import marked_faces
from cli.drawings.pages import Sheets, captioned, drawings_pdf, drawings_png, rooms, to_fit
from cli.drawings.running import small_figures
from cli.drawings.scene import Scene
from cli.drawings.shapes import SMALL, Text
from cli.drawings.svg import svg
from cli.drawings.swing_plan import latch_detail, swing_plan, swing_words
from cli.drawings.things import Pictures
from cli.drawings.trim_elevation import trim_elevation, trim_rows
from cli.drawings.vertical_section import section
from cli.screen.wording import grouped
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.plan import Option, Plan
from solver.plan.trimming import TrimSet
from solver.strength.hang_sheet import hanging_of
from solver.trim.trim_sets import trim_sets

KEY_OFF = 5.0
"""From a drawing to the key below it [mm] on paper."""
SMALLER = 1.5
"""How much smaller a drawing may become for what belongs below it to be on the same page [-]."""
ROW = 1.7 * SMALL
"""Height of a row [mm] on paper."""
APART = 6.0
"""Between two columns [mm] on paper."""


@dataclass(frozen=True)
class Subject:
    """What is drawn, and for which paper.

    Attributes
    ----------
    plan, option
        The plan, and the option of it.
    paper
        A key of `pages.PAPERS`.
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

    def fit_with(
        self, name: str, make: Callable[[int], Scene], lower: Callable[[float, int], Scene]
    ) -> Iterator[Scene]:
        """Yield the scene with what goes below it; that by itself where there is no room.

        `lower` makes it for a width [mm] on paper and a scale; there is no room for it where the
        scene would become much smaller.
        """
        width = rooms(self.paper)[0][0]

        def both(upper: Scene) -> Scene:
            return below(upper, lower(max(width, upper.paper_size[0]) - 2, upper.scale))

        def whole(scale: int) -> Scene:
            return both(make(scale))

        def smaller(scale: int) -> Scene:
            return both(small_figures(make(scale)))

        drawing = self.fit(make)
        joined = to_fit(whole, rooms(self.paper), self.plan.unit, smaller)
        if joined.scale <= drawing.scale * SMALLER:
            yield replace(joined, name=name)
            return
        yield replace(drawing, name=name)
        lone = lower(width - 2, 1)
        if lone.shapes:
            title = f"{lone.title} {drawing.title[0].lower()}{drawing.title[1:]}"
            yield replace(lone, name=f"{name}-{lone.name}", title=title)


def fronts(subject: Subject) -> Iterator[Scene]:
    """Yield each case's front elevation with its key, then neighbours side by side."""
    job, unit = subject.plan.job, subject.plan.unit
    for case in subject.option.cases:
        yield from _front(subject, case)
    for group in neighbours(job, subject.option.cases):
        view = partial(
            joint_elevation, group, unit, marks=key_marks(job), pictures=subject.pictures
        )
        yield replace(subject.fit(view), name=f"{slug(group[0].name)}-together")


def _front(subject: Subject, case: CasePlan) -> Iterator[Scene]:
    plan = subject.plan
    marks = key_marks(plan.job)
    inside = {thing.item for bay in case.bays for one in bay.openings for thing in one.items}

    def alone(scale: int) -> Scene:
        return elevation(case, plan.unit, scale, marks, subject.pictures)

    def key(width: float, scale: int) -> Scene:
        return key_scene(plan.job, width, scale, inside)

    yield from subject.fit_with(f"{slug(case.name)}-front", alone, key)


def sections(subject: Subject) -> Iterator[Scene]:
    """Yield a section through every kind of bay."""
    for case in subject.option.cases:
        for bays in bays_alike(case):
            scene = subject.fit(partial(section, subject.plan.job, case, bays[0]))
            bay = f"-bay-{bays[0].number}" if len(case.bays) > 1 else ""
            yield replace(scene, name=f"{slug(case.name)}-section{bay}")


def swings(subject: Subject) -> Iterator[Scene]:
    """Yield the plan of every hung case in its swing, and the place where it is tightest."""
    job = subject.plan.job
    for case in subject.option.cases:
        if case.swing is None:
            continue
        above = partial(swing_plan, job, case, case.swing)
        words = partial(listing, swing_words(case.swing, subject.plan.unit))
        yield from subject.fit_with(f"{slug(case.name)}-swing", above, words)
        detail = latch_detail(job, case, case.swing, 1)
        yield replace(detail, name=f"{slug(case.name)}-swing-detail")


def markings(subject: Subject) -> Iterator[Scene]:
    """Yield what is marked out on each face, alike faces together, and on the back."""
    plan, option = subject.plan, subject.option
    for case in option.cases:
        faces = marked_faces(plan, option, case)
        for alike_faces in grouped(faces, lambda face: replace(face, name="")):
            name = "; ".join(face.name for face in alike_faces)
            face = replace(alike_faces[0], name=name)
            scene = subject.fit(partial(marking, case.name, face, plan.unit))
            yield replace(scene, name=f"{slug(case.name)}-marking-{slug(name)}")
        if hanging_of(plan.job, option).of(case.name).back is not None:
            scene = subject.fit(partial(back_marking, plan, option, case))
            yield replace(scene, name=f"{slug(case.name)}-marking-back")


def trims(subject: Subject) -> Iterator[Scene]:
    """Yield the trim of every case that has new casing."""
    job, option = subject.plan.job, subject.option
    for case, trim in zip(option.cases, trim_sets(job, option), strict=True):
        if trim_elevation(job, option, case, trim, 1) is None:
            continue
        seen = partial(_trim, job, option, case, trim)
        rows = partial(listing, trim_rows(trim, job.unit))
        yield from subject.fit_with(f"{slug(case.name)}-trim", seen, rows)


def _trim(job: Job, option: Option, case: CasePlan, trim: TrimSet, scale: int) -> Scene:
    scene = trim_elevation(job, option, case, trim, scale)
    assert scene is not None
    return scene


def sheets(subject: Subject) -> Iterator[Scene]:
    """Yield every sheet with its parts and cuts."""
    parts = {part.id: part for part in subject.option.parts}
    unit = subject.plan.unit
    for number, sheet in enumerate(subject.option.sheets, start=1):
        alone = partial(sheet_scene, sheet, number, parts, unit)
        cuts = partial(listing, cut_rows(sheet, parts, unit))
        yield from subject.fit_with(f"sheet-{number}", alone, cuts)


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
    "section": sections,
    "swing": swings,
    "marking": markings,
    "trim": trims,
    "sheets": sheets,
}
"""The kinds by the word that the command takes; in the order in which they are shown."""


def scenes(subject: Subject, kinds: Sequence[str]) -> list[Scene]:
    """Return the drawings of these kinds, each with a name of its own."""
    drawn: list[Scene] = []
    names: set[str] = set()
    for kind in KINDS:
        for scene in KINDS[kind](subject) if kind in kinds else ():
            name, number = scene.name, 2
            while name in names:
                name, number = f"{scene.name}-{number}", number + 1
            names.add(name)
            drawn.append(replace(scene, name=name))
    return drawn


def listing(rows: Sequence[str], width: float, scale: int) -> Scene:
    """Return rows of lettering in as many columns as `width` [mm] on paper takes.

    They are read down the columns. A row wider than all of it goes on in the next.
    """
    lines = [line for row in rows for line in wrapped(row, width)]
    wide = max((text_width(line, SMALL) for line in lines), default=0.0)
    columns = max(1, int((width + APART) // (wide + APART)))
    deep = max(1, -(-len(lines) // columns))
    texts = tuple(
        Text((at // deep * (wide + APART) * scale, -(at % deep) * ROW * scale), line)
        for at, line in enumerate(lines)
    )
    return Scene("list", "List of", scale, texts, to_scale=False)


TOGETHER = "drawings.pdf"
"""The file with all drawings, a page each."""


def _svg(scene: Scene, sheets: Sheets) -> bytes:
    return svg(captioned(scene, sheets)).encode("utf-8")


def _pdf(scene: Scene, sheets: Sheets) -> bytes:
    return drawings_pdf([scene], sheets)


def _png(scene: Scene, sheets: Sheets) -> bytes:
    return drawings_png([scene], sheets)[0]


def _dxf(scene: Scene, sheets: Sheets) -> bytes:
    return dxf(captioned(scene, sheets))


FORMATS: dict[str, Callable[[Scene, Sheets], bytes]] = {
    "svg": _svg,
    "pdf": _pdf,
    "png": _png,
    "dxf": _dxf,
}


def drawing_files(
    scenes: Sequence[Scene], sheets: Sheets, formats: Sequence[str]
) -> dict[str, Callable[[], bytes]]:
    """Return what makes the content of each file, by its name, in order."""
    files: dict[str, Callable[[], bytes]] = {
        str(Path(scene.name).with_suffix(f".{ending}")): partial(make, scene, sheets)
        for scene in scenes
        for ending, make in FORMATS.items()
        if ending in formats
    }
    if "pdf" in formats and len(scenes) > 1:
        files[TOGETHER] = partial(drawings_pdf, scenes, sheets)
    return files
