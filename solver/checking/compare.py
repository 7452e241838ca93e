"""Comparisons that give a finding where they fail; lengths are shown in the job's unit."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checking.findings import Code, Finding, finding
from solver.units import Ticks, Unit, to_mm, with_unit


def length_pair(needs: Ticks, has: Ticks, unit: Unit) -> tuple[str, str]:
    """Write two lengths [tick]; in exact mm where rounding would hide the difference."""
    texts = with_unit(needs, unit), with_unit(has, unit)
    if texts[0] == texts[1]:
        return f"{to_mm(needs)} mm", f"{to_mm(has)} mm"
    return texts


def same_length(
    code: Code, where: str, what: str, needs: Ticks, has: Ticks, unit: Unit
) -> Iterator[Finding]:
    """Yield a finding unless both lengths [tick] are equal."""
    if needs != has:
        yield finding(code, where, what, *length_pair(needs, has, unit))


def at_least(
    code: Code, where: str, what: str, needs: Ticks, has: Ticks, unit: Unit
) -> Iterator[Finding]:
    """Yield a finding where `has` is less than `needs` [tick]."""
    if has < needs:
        least, given = length_pair(needs, has, unit)
        yield finding(code, where, what, f"at least {least}", given)


def at_most(
    code: Code, where: str, what: str, needs: Ticks, has: Ticks, unit: Unit
) -> Iterator[Finding]:
    """Yield a finding where `has` is more than `needs` [tick]."""
    if has > needs:
        most, given = length_pair(needs, has, unit)
        yield finding(code, where, what, f"at most {most}", given)


def same(code: Code, where: str, what: str, needs: object, has: object) -> Iterator[Finding]:
    """Yield a finding unless both values are equal; they are shown as text."""
    if needs != has:
        yield finding(code, where, what, str(needs), str(has))
