"""What came of a job: hours and amounts, a line each, to hold against the estimate."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

from cli.columns import read_rows
from solver.errors import InputError, ManyInputsError
from solver.estimate.actual import Entry

HEADERS: dict[str, tuple[str, ...]] = {
    "what": ("line", "task", "item", "name"),
    "hours": ("h", "actual hours"),
    "amount": ("paid", "cost", "actual", "actual amount"),
    "note": ("notes", "remark", "comment"),
}
"""Columns and what else they may be called, whatever the case."""
MOST = Decimal(1_000_000)


def read_actuals(path: str) -> list[Entry]:
    """Read a CSV file of `what,hours,amount`; a cell may be empty."""
    rows, _ = read_rows(path, HEADERS, "what")
    entries, errors = [], []
    for line, row in rows:
        where = f"{path} line {line}"
        try:
            entries.append(
                Entry(row.get("what", ""), _number(row, "hours"), _number(row, "amount"))
            )
        except ValueError as error:
            errors.append(InputError(str(error), where))
    if errors:
        raise errors[0] if len(errors) == 1 else ManyInputsError(errors)
    return entries


def _number(row: dict[str, str], column: str) -> Decimal | None:
    text = row.get(column, "").replace(",", "").lstrip("$£€").strip()
    if not text:
        return None
    try:
        number = Decimal(text)
        if not number.is_finite() or not 0 <= number < MOST:
            raise InvalidOperation
    except InvalidOperation:
        msg = f"{column}: {row[column]!r} is given; allowed: a number from 0 to 999,999.99"
        raise ValueError(msg) from None
    rounded = number.quantize(Decimal("0.01"))
    if rounded != number:
        msg = f"{column}: {row[column]!r} is given; at most two places after the point"
        raise ValueError(msg)
    return rounded
