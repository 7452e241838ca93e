"""A figure of the hanging sheet: value, formula, numbers put in, source, verdict."""

from __future__ import annotations

from solver.plan.hanging import Figure, FigureKind

LENGTH: FigureKind = "length"
FORCE: FigureKind = "force"


def shown(**values: float) -> str:
    """Write numbers as `W 520 N, a 350 mm`: a key is the letter and its unit, `W_N`."""
    named = ((*key.partition("_")[::2], value) for key, value in values.items())
    return ", ".join(f"{letter} {value:.5g} {unit}".rstrip() for letter, unit, value in named)


def figure(
    key: str,
    what: str,
    amount: tuple[FigureKind, float],
    formula: tuple[str, str],
    source: str,
    *,
    assumes: str = "",
    judged: tuple[bool, str] | None = None,
) -> Figure:
    """Make a figure.

    Parameters
    ----------
    key, what
        For programs, and for people.
    amount
        (kind, value).
    formula
        (in letters, with numbers in N and mm).
    source
        Where the formula is from.
    assumes
        What it rests on.
    judged
        (whether it is as it should be, what follows if not).
    """
    return Figure(
        key=key,
        what=what,
        kind=amount[0],
        value=amount[1],
        formula=formula[0],
        numbers=formula[1],
        source=source,
        assumes=assumes,
        ok=None if judged is None else judged[0],
        says="" if judged is None or judged[0] else judged[1],
    )
