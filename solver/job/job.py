"""A whole job, every default filled in; :mod:`solver.intake.load` reads one.

Also the tables [job], [look] and [shop].
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field, model_validator

from solver.job.assumed import finish_of, site_of, terms_of
from solver.job.case import Case, Lip
from solver.job.doorway import Doorway
from solver.job.finish_and_overrides import Finish, HardwareOrder
from solver.job.have import Have
from solver.job.holds import Hold
from solver.job.inventory import Item, NotNegative, Positive
from solver.job.materials import MouldingStock, Name, SheetStock
from solver.job.price_terms import Terms
from solver.job.site import Site
from solver.quantities import Mass, Model
from solver.units import Ticks, Unit, inches

Rhythm = Literal["steady", "even", "graduated", "symmetric", "to-fit"]
Tallest = Literal["low", "top", "any"]
ShelfStyle = Literal["mirrored", "grouped"]
Saw = Literal["guided saw", "table saw", "mitre saw", "panel saw"]
"""Guided saw: a circular saw on a track; panel saw: the yard's."""
SITE_PANEL: tuple[Ticks, Ticks] = (inches(48), inches(24))
"""Largest panel that is lifted onto a bench saw on site: common practice, no source [tick]."""
KeyPlace = tuple[str, str | None, str]
"""A key of a job file: its table, the name of the entry (None: there is one), and the key."""


class PlacedFaultError(ValueError):
    """What is wrong with one key of a job; `reason` says it without the place, the message with."""

    def __init__(self, place: KeyPlace, reason: str, message: str | None = None) -> None:
        super().__init__(message or f"{place_text(place)}: {reason}")
        self.place, self.reason = place, reason


def place_text(place: KeyPlace) -> str:
    """Return a place as messages call it: ``case 'alcove' width``."""
    table, name, key = place
    return f"{table} {key}" if name is None else f"{table} {name!r} {key}"


class Head(Model):
    """[job]: what holds for the whole job."""

    title: Name
    unit: Unit
    """Unit of every number without one: "in" or "mm"."""
    currency: Annotated[str, Field(pattern=r"^[A-Z]{3}$")]
    marking_step: Positive
    """Shelf marks are whole multiples of it [tick]."""
    house_built: Annotated[int, Field(ge=1000, le=2200)] | Literal["unknown"]
    floor: str | None = None
    notes: str | None = None


class Look(Model):
    """[look]: how the display is to look."""

    headroom: NotNegative
    """Least room above each thing [tick]."""
    lift: NotNegative
    """Room to lift a thing over a lip [tick]."""
    gap: NotNegative
    """Least gap between two things [tick]."""
    end_margin: NotNegative
    """Least gap at each end of a shelf [tick]."""
    front_margin: NotNegative
    """Least room in front of a thing [tick]."""
    rhythm: Rhythm
    step: NotNegative | None = None
    """Steady, graduated: how much lower each opening is than the one below, where given [tick]."""
    clear_least: Positive
    """Least clear height of an opening [tick]."""
    clear_most: Positive | None = None
    """Most clear height of an opening [tick]."""
    tallest: Tallest
    """Where the tallest opening is wished."""
    steepest: Annotated[float, Field(ge=1, le=20)] | None = None
    """Most height of the lowest opening over that of the top one [-]; left out: any."""
    shelf_style: ShelfStyle
    """Rows like mirror images, kinds halved about the middle; or every kind whole."""
    eye_level: Positive
    """Above the room's floor [tick]."""
    spare: Annotated[float, Field(ge=0, le=0.9)]
    """Share of each shelf's clear width kept free [-]; or, in a job file, expected things for
    which room is kept, such as ["4 x tall jug"]."""
    guess_allowance: NotNegative
    """Added to each guessed size [tick]."""
    shelf_load: Annotated[Mass, Field(ge=1)] | None = None
    """Most load on one shelf [g]; left out: 40 lb/ft2 of shelf, 200 lb at most."""
    price_slack: Annotated[float, Field(ge=0, le=100)]
    """Per cent over the cheapest that a better look may cost."""
    prefer: Literal["price", "look"]
    share_lines: bool

    @model_validator(mode="after")
    def _ordered(self) -> Look:
        if self.clear_most is not None and self.clear_most < self.clear_least:
            msg = "clear_least <= clear_most is wanted"
            raise ValueError(msg)
        return self


class Shop(Model):
    """[shop]: the saws and what they leave."""

    kerf: NotNegative
    """Width of a saw cut [tick]."""
    edge_trim: NotNegative
    """Cut off each factory edge of a sheet [tick]."""
    margin: NotNegative
    """Slack kept with each strip and piece [tick]."""
    cutting_step: Positive
    """Open sizes move on whole steps [tick]."""
    first_cut: Literal["rip", "crosscut", "either"]
    stages: Literal["2", "3", "any"]
    trimming: bool = True
    """Whether two stages may be followed by a cut that trims a piece to width."""
    saws: Annotated[tuple[Saw, ...], Field(min_length=1)]
    """Saws there are; "panel saw" is the yard's, for the first cuts of a sheet."""
    place: Literal["shop", "site"]
    """Where the sheets are cut."""
    mitre_capacity: Positive
    """Widest board that the mitre saw crosscuts [tick]."""
    sled_capacity: Positive
    """Longest cut on the table saw's sled [tick]."""
    least_rip: NotNegative
    """Least width kept between rip fence and blade [tick]."""
    least_length: NotNegative
    """Least length that is run along the rip fence, or held for a crosscut [tick]."""
    least_offcut: tuple[Positive, Positive]
    """Least length and width of a leftover worth keeping [tick, tick]."""
    longest_rip: Positive | None = None
    """Longest cut that the table saw's supports allow [tick]; left out, any."""
    largest_panel: tuple[Positive, Positive] | None = None
    """Largest panel that is lifted onto a bench saw [tick, tick]; left out, a whole sheet
    in the shop, 48 x 24 in on site."""

    @property
    def lifted(self) -> tuple[int, int] | None:
        """Largest panel that is lifted onto a bench saw [tick, tick]; None is any."""
        if self.largest_panel is None and self.place == "site":
            return SITE_PANEL
        return self.largest_panel

    @model_validator(mode="before")
    @classmethod
    def _stages_as_text(cls, data: Any) -> Any:
        if isinstance(data, dict) and isinstance(data.get("stages"), int):
            return {**data, "stages": str(data["stages"])}
        return data


class Job(Model):
    """A whole job; field names and aliases mirror the tables of the job file."""

    head: Head = Field(alias="job")
    doorways: tuple[Doorway, ...] = Field(default=(), alias="doorway")
    cases: Annotated[tuple[Case, ...], Field(min_length=1, max_length=40)] = Field(alias="case")
    look: Look
    items: Annotated[tuple[Item, ...], Field(min_length=1, max_length=2000)] = Field(alias="item")
    sheets: Annotated[tuple[SheetStock, ...], Field(min_length=1)] = Field(alias="sheet")
    mouldings: tuple[MouldingStock, ...] = Field(default=(), alias="moulding")
    shop: Shop
    holds: tuple[Hold, ...] = Field(default=(), alias="hold", exclude_if=lambda held: not held)
    """Decisions that are held. Left off where there are none, so that the hash of a job
    without them stays what it was."""
    have: tuple[Have, ...] = Field(default=(), exclude_if=lambda there: not there)
    """What is there already, to be planned around; left off as `holds` is."""

    site: Site | None = Field(default=None, exclude_if=lambda site: site is None)
    """Place and people, for strength, hinges and cautions. Left off where nothing is said."""

    finish: Finish | None = Field(default=None, exclude_if=lambda finish: finish is None)
    """Paint or clear finish. Left off where nothing is said."""
    hardware: tuple[HardwareOrder, ...] = Field(default=(), exclude_if=lambda lines: not lines)
    """Hardware that is bought in other packs than usual. Left off as `holds` is."""

    price: Terms | None = Field(default=None, exclude_if=lambda terms: terms is None)
    """What an hour costs and how it is paid. Left off where nothing is said."""

    @property
    def finished(self) -> Finish:
        """The finish, that of the defaults where the job has none."""
        return self.finish or finish_of(self.unit)

    @property
    def terms(self) -> Terms:
        """The price terms, those of the defaults where the job has none."""
        return self.price or terms_of(self.unit)

    @property
    def ground(self) -> Site:
        """The site, that of the defaults where the job has none."""
        return self.site or site_of(self.unit)

    @property
    def unit(self) -> Unit:
        """Unit of the job: "in" or "mm"."""
        return self.head.unit

    @property
    def hash(self) -> str:
        """sha256 of the job as understood, as canonical JSON."""
        data = self.model_dump(mode="json", by_alias=True)
        text = json.dumps(data, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        return hashlib.sha256(text.encode()).hexdigest()

    def case(self, name: str) -> Case:
        """Return the case of that name; KeyError where there is none."""
        return {case.name: case for case in self.cases}[name]

    def item(self, name: str) -> Item:
        """Return the kind of thing of that name; KeyError where there is none."""
        return {item.name: item for item in self.items}[name]

    def thickness(self, material: str) -> int:
        """Measured thickness of a material [tick]; KeyError where no sheet is of it."""
        return {sheet.material: sheet.thickness for sheet in self.sheets}[material]

    def grain(self, material: str) -> Literal["length", "any"]:
        """Return "length" where parts of the material keep their direction, else "any"."""
        return {sheet.material: sheet.grain for sheet in self.sheets}[material]

    def moulding(self, name: str) -> MouldingStock:
        """Return the moulding of that name; KeyError where there is none."""
        return {moulding.name: moulding for moulding in self.mouldings}[name]

    def measured(self, thickness: Mapping[str, Ticks]) -> Job:
        """Return the job with materials of these thicknesses [tick], measured: without a band."""
        sheets = tuple(
            sheet.model_copy(update={"thickness": thickness[sheet.material], "band": None})
            if sheet.material in thickness
            else sheet
            for sheet in self.sheets
        )
        return self.model_copy(update={"sheets": sheets})

    @model_validator(mode="after")
    def _names(self) -> Job:
        """Names are given once, and whatever is named is in the job."""
        _check_unique("doorway", [d.name for d in self.doorways])
        _check_unique("case", [c.name for c in self.cases])
        _check_unique("item", [i.name for i in self.items])
        _check_unique("sheet", [s.name for s in self.sheets])
        _check_unique("moulding", [m.name for m in self.mouldings])
        _check_unique("hardware", [h.key for h in self.hardware])
        materials = {s.material for s in self.sheets}
        for case in self.cases:
            self._check_case(case, materials)
        names = {case.name for case in self.cases}
        for door in self.doorways:
            for one in door.in_the_swing:
                if one.case is not None:
                    _check_known(("doorway", door.name, "in_the_swing"), one.case, names)
        if self.site is not None:
            known = materials | {m.name for m in self.mouldings}
            for name in self.site.boards:
                _check_known(("site", None, "boards"), name, known)
        for field in ("thickness", "band", "grain"):
            kinds = {(s.material, getattr(s, field)) for s in self.sheets}
            if len(kinds) != len(materials):
                msg = f"sheets of one material must have one {field}; name the materials apart"
                raise ValueError(msg)
        return self

    def _check_case(self, case: Case, materials: set[str]) -> None:
        """Raise PlacedFaultError where a case names what is not in the job."""
        _check_known(("case", case.name, "material"), case.material, materials)
        if case.back != "none":
            _check_known(("case", case.name, "back"), case.back, materials | {"none"})
        if case.doorway is not None:
            doorways = {d.name for d in self.doorways}
            _check_known(("case", case.name, "doorway"), case.doorway, doorways)
        if case.beside is not None:
            others = {c.name for c in self.cases} - {case.name}
            _check_known(("case", case.name, "beside"), case.beside, others)
        if case.lip is not None:
            self._check_lip(case.name, case.lip, self.thickness(case.material))

    def _check_lip(self, case: str, lip: Lip, shelf: Ticks) -> None:
        """Raise PlacedFaultError where a lip's moulding is not known or does not cover the edge."""
        known = {m.name for m in self.mouldings}
        _check_known(("case", case, "lip.moulding"), lip.moulding, known)
        if not 0 <= lip.above <= self.moulding(lip.moulding).width - shelf:
            reason = (
                "the moulding must cover the shelf's edge; "
                "its width must be the shelf's thickness and what stands above, or more"
            )
            raise PlacedFaultError(("case", case, "lip.above"), reason)


def _check_unique(table: str, names: list[str]) -> None:
    """Raise PlacedFaultError where a name of a table is given twice."""
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        text = f"[[{table}]] names must differ; given twice: {', '.join(map(repr, twice))}"
        raise PlacedFaultError((table, twice[0], "name"), text, text)


def _check_known(place: KeyPlace, name: str, known: set[str]) -> None:
    """Raise PlacedFaultError where a name is not among those known."""
    if name not in known:
        allowed = ", ".join(map(repr, sorted(known))) or "none is listed"
        reason = f"{name!r} is not in the job; allowed: {allowed}"
        raise PlacedFaultError(place, reason, f"{place_text(place)} = {reason}")


def front_clearance(job: Job, case: Case) -> int:
    """What stays free in front of things: the front margin, or a lip that stands up, if thicker."""
    if case.lip is None or not case.lip.above:
        return job.look.front_margin
    return max(job.look.front_margin, job.moulding(case.lip.moulding).thickness)


def size_allowance(job: Job, item: Item) -> int:
    """Allowance added to each size of a thing [tick], where its sizes are guessed."""
    return job.look.guess_allowance if item.guessed else 0
