"""What a thickness that is not measured yet means: room at both ends, parts cut only then."""

from __future__ import annotations

from cli.tables.style import Titled, plain_table
from cli.tables.words import NONE, amount, count, plain_name
from solver.band import Band, PartOverBand
from solver.units import Ticks, Unit, caliper, format_length, with_unit


def band_tables(band: Band | None, unit: Unit) -> list[Titled]:
    """Return the ends of the band side by side, and the parts that depend on it."""
    if band is None:
        return []
    return [_ends(band, unit), *([_parts(band.parts, unit)] if band.parts else [])]


def band_lines(band: Band | None, currency: str) -> list[str]:
    """Say why it holds for every thickness between, and what stock does for all of them."""
    if band is None:
        return []
    price = "" if band.price is None else f", {amount(band.price, currency)} with mouldings"
    sheets = f"{count(band.sheets, 'sheet')} {'does' if band.sheets == 1 else 'do'}"
    return [
        f"Any thickness of the band: everything fits at both ends, and between them, since "
        f"{band.why}.",
        f"Any thickness of the band: {sheets}{price}.",
        "Measure the sheet before cutting the parts that depend on it: casewright plan"
        " --thickness.",
    ]


def _ends(band: Band, unit: Unit) -> Titled:
    table = plain_table("", "thinnest", "thickest", right=("thinnest", "thickest"))
    thin, thick = band.ends
    for one in band.materials:
        name = plain_name(one.material)
        table.add_row(name, caliper(one.least, unit), caliper(one.most, unit))
    table.add_row(
        "least headroom", _length(thin.headroom_least, unit), _length(thick.headroom_least, unit)
    )
    table.add_row(
        "lowest opening", with_unit(thin.clear_least, unit), with_unit(thick.clear_least, unit)
    )
    table.add_row(
        "highest opening", with_unit(thin.clear_most, unit), with_unit(thick.clear_most, unit)
    )
    return Titled("Thickness not measured yet: the same marks at both ends", table)


def _length(value: Ticks | None, unit: Unit) -> str:
    return NONE if value is None else with_unit(value, unit)


def _parts(parts: tuple[PartOverBand, ...], unit: Unit) -> Titled:
    table = plain_table("part", "length", "width")
    groups: dict[tuple[str, str], list[str]] = {}
    for one in parts:
        size = (
            _range(one.length_least, one.length_most, unit),
            _range(one.width_least, one.width_most, unit),
        )
        groups.setdefault(size, []).append(one.part)
    for (length, width), names in groups.items():
        table.add_row(", ".join(map(plain_name, names)), length, width)
    return Titled(f"Parts that depend on the thickness: cut when it is measured ({unit})", table)


def _range(least: Ticks, most: Ticks, unit: Unit) -> str:
    if least == most:
        return format_length(least, unit)
    return f"{format_length(least, unit)} to {format_length(most, unit)}"
