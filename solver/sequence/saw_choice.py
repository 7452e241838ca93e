"""Which saw makes a cut, what is set on it, and what to watch; settings in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from solver.job.job import Saw, Shop
from solver.plan.saw_cuts import LONG, SLED_MOST, CutCaution, Edge, Guide
from solver.sequence.cut_steps import Step, X
from solver.units import Ticks, Unit, format_length


@dataclass(frozen=True)
class SawSetup:
    """A saw and its guide: no guide at the yard or at a marked line, no saw where none can."""

    saw: Saw | None
    guide: Guide | None


GUIDED, YARD = SawSetup("guided saw", "track"), SawSetup("panel saw", None)
FENCE, SLED, STOP = (
    SawSetup("table saw", "fence"),
    SawSetup("table saw", "sled"),
    SawSetup("mitre saw", "stop"),
)
RIPS, CROSSCUTS = (YARD, FENCE, SLED, GUIDED), (YARD, STOP, SLED, GUIDED)
"""Ways to make a cut, in the order of preference."""
MARK = SawSetup("mitre saw", None)
"""To trim an end: no stop, the line is marked."""
TRIMS = (YARD, GUIDED, FENCE, MARK, SLED)


def way_of(steps: Sequence[Step], shop: Shop) -> SawSetup:
    """Return the best way that the shop has and that is safe for all of these equal steps."""
    first = steps[0].cut
    ways = RIPS if first.direction == "rip" else CROSSCUTS
    for way in TRIMS if first.kind == "trim" else ways:
        if way.saw in shop.saws and all(can(way, step, shop) for step in steps):
            return way
    return SawSetup(None, None)


def ways_of(steps: Sequence[Step], shop: Shop) -> list[SawSetup]:
    """Return the way of each step of a sheet; equal crosscuts of a panel are made one way.

    So equal parts come from one saw and one setting, where one saw can make them all.
    """
    alike: dict[tuple[str, Ticks], list[Step]] = {}
    for step in steps:
        if step.cut.kind == "crosscut":
            alike.setdefault(_likeness(step), []).append(step)
    shared = {key: way_of(some, shop) for key, some in alike.items()}
    ways = [shared.get(_likeness(step)) if step.cut.kind == "crosscut" else None for step in steps]
    return [
        way if way is not None and way.saw is not None else way_of([step], shop)
        for step, way in zip(steps, ways, strict=True)
    ]


def _likeness(step: Step) -> tuple[str, Ticks]:
    return step.panel.name, step.cut.setting


def can(way: SawSetup, step: Step, shop: Shop) -> bool:
    """Whether a saw can make a cut within the limits of the shop."""
    if way is YARD:
        return step.panel.what == "sheet"
    if way is GUIDED:
        return True
    if way in (STOP, MARK):
        fits = step.cut_length <= shop.mitre_capacity and step.cut.direction == "crosscut"
        return fits and step.fed >= shop.least_length
    if not _lifted(step, shop):
        return False
    if way is FENCE:
        return step.cut.direction == "rip" and _fence(step, shop)
    lies = step.fed >= shop.least_length and max(step.panel.size) <= SLED_MOST
    return lies and step.cut_length <= shop.sled_capacity


def _fence(step: Step, shop: Shop) -> bool:
    """Whether a panel runs safely along the rip fence: long enough, and longer than wide."""
    kept = setting_of(FENCE, step)
    return (
        step.cut_length >= max(shop.least_length, kept)
        and kept >= shop.least_rip
        and (shop.longest_rip is None or step.cut_length <= shop.longest_rip)
    )


def _lifted(step: Step, shop: Shop) -> bool:
    """Whether the panel may be lifted onto a bench saw."""
    most = shop.lifted
    size = step.panel.size
    return most is None or (max(size) <= max(most) and min(size) <= min(most))


def setting_of(way: SawSetup, step: Step) -> Ticks:
    """Between guide and blade [tick]: what comes off, or what goes on where a fence trims."""
    if step.cut.kind == "trim" and way.guide == "fence":
        return step.fed - step.cut.setting
    return step.cut.setting


def measured_from(way: SawSetup, step: Step) -> Edge:
    """Return the edge that lies against the guide, or from which the line is marked.

    That is the nearer one, with two exceptions: to trim the near side at a fence the far edge
    lies against it, and at the far side what is taken off is measured from that edge.
    """
    trim = step.cut.kind == "trim"
    against = way.guide == "fence"
    near = step.goes_on is not None and step.goes_on.rect[step.axis] > step.panel.rect[step.axis]
    if trim and near == against:
        return "far factory end" if step.axis == X else "far factory edge"
    factory = step.panel.rect[step.axis] == 0
    if step.axis == X:
        return "factory end" if factory else "sawn end"
    return "factory edge" if factory else "sawn edge"


def cautions(way: SawSetup, step: Step, shop: Shop) -> tuple[CutCaution, ...]:
    """Return what to watch at a cut made this way."""
    warnings: list[CutCaution] = []
    if way.saw is None:
        warnings.append("no saw")
    if step.cut.kind != "trim" and step.cut.setting < shop.least_rip:
        warnings.append("narrow")
    if max(step.panel.size) < shop.least_length:
        warnings.append("short")
    if way.saw in ("table saw", "mitre saw") and max(step.panel.size) > LONG:
        warnings.append("long")
    return tuple(warnings)


def set_to(saw: str | None, guide: str | None, setting: int, unit: Unit) -> str:
    """Say what is set to what: `fence 11-7/8`."""
    where = guide or ("yard" if saw == "panel saw" else "at")
    return f"{where} {format_length(setting, unit)}"


def ranges(numbers: Sequence[int]) -> str:
    """Return numbers as text, consecutive ones as a range: `2, 4-6`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(
        ", ".join(map(str, run)) if len(run) < 3 else f"{run[0]}-{run[-1]}" for run in runs
    )
