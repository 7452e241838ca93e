"""The answer: frozen, complete, and the source of every table, drawing and document.

Keys are those of the published plan format. All lengths are ticks inside and
millimetres in JSON; `x` runs from the left, heights from the bottom end of the
case's sides, `z` from the front of the shelf back.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, PlainSerializer

from solver.band import Band
from solver.bearing import Strength
from solver.compared import Collision, Comparison
from solver.cuts import Cut, Offcut, SawSetting, StickCut
from solver.have import HaveOutcome
from solver.job import Job, Shop
from solver.materials import Grain
from solver.outcome import Status
from solver.quantities import Length, Mass, Model, Money
from solver.remarks import Advice, Altered, NearMiss, SheetSlack
from solver.swinging import Swinging


def _tidy(value: float | str | None) -> float | str | int | None:
    return int(value) if isinstance(value, float) and value.is_integer() else value


Figure = Annotated[float | str | None, PlainSerializer(_tidy, when_used="json")]
"""A stage's value: money as text, lengths in mm, counts as they are."""


class Size(Model):
    """Width, height and depth."""

    width: Length
    height: Length
    depth: Length


class Stage(Model):
    """One wish of the order of wishes: what was reached, what is proven."""

    name: str
    value: Figure
    bound: Figure
    proven: bool
    unit: str
    """"things", "money", "mm", "g m" or "share": what the figures count."""
    note: str | None = None
    """What the bound holds for, where it is not all plans."""


class Placement(Model):
    """One physical thing where it stands."""

    item: str
    """Name of the kind."""
    number: int
    """Which of the kind, from 1, over the whole option."""
    x: Length
    """From the inside face of the bay's left side."""
    y: Length
    """Up from the opening's floor: a riser, or the things below in a stack."""
    z: Length
    """From the front of the shelf back."""
    row: int
    """1 is the front row."""
    on: int | None
    """Number of the thing of the same kind that it stands on."""
    lying: bool
    width: Length
    """As it stands, allowance for a guessed size included."""
    height: Length
    depth: Length
    headroom: Length
    """Opening's clear height less y and height."""
    mass: Mass
    """[g]"""
    mass_assumed: bool = False
    """True where no weight was given and the standard shelf load on its footprint counts."""


class Opening(Model):
    """The clear space on shelf `index`; 0 is on the lowest board."""

    index: int
    floor: Length
    height: Length
    """Clear height."""
    lip_above_floor: Length
    """How far the lip of its own shelf stands up into it."""
    lip_below_ceiling: Length
    """How far the lip of the shelf above hangs down into it."""
    items: tuple[Placement, ...]
    fill: float
    """Share of the clear width taken by things, front row [-]."""
    load: Mass
    """[g]"""
    load_limit: Mass
    """[g]"""


class Shelf(Model):
    """A board between the lowest board and the top."""

    index: int
    underside: Length
    """The mark, from the bottom end of the side."""
    top: Length
    thickness: Length
    depth: Length
    part: str
    """Id of its part."""


class Bay(Model):
    """The space between two uprights."""

    number: int
    x: Length
    """Its left inside face from the case's left outside face."""
    inside: Size
    openings: tuple[Opening, ...]
    shelves: tuple[Shelf, ...]


class CasePlan(Model):
    """A case as planned."""

    name: str
    kind: str
    above_floor: Length
    outside: Size
    bays: tuple[Bay, ...]
    swing: Swinging | None = Field(default=None, exclude_if=lambda swing: swing is None)
    """How it swings, where it hangs in a doorway; left off for any other case."""


class ShortBy(Model):
    """How much is missing for one left-out thing, each direction by itself."""

    width: Length | None = None
    height: Length | None = None
    depth: Length | None = None
    load: Mass | None = None
    """[g]"""


class LeftOut(Model):
    """Things of one kind that found no place."""

    item: str
    count: int
    short_by: ShortBy
    """Empty where each thing would fit somewhere by itself but the shelves are full."""


class Allowance(Model):
    """What a joint or clearance adds to the part's finished size."""

    what: str
    length: Length
    """Added to the length; negative for a clearance."""
    width: Length = 0


class Part(Model):
    """One piece to cut."""

    id: str
    name: str
    case: str
    material: str
    length: Length
    """Along its grain; allowances included."""
    width: Length
    thickness: Length
    grain: Grain
    allowances: tuple[Allowance, ...] = ()
    set: str | None = None
    """Name of the set that it is to match, where a list of parts names one."""


class Piece(Model):
    """A part where it lies on its sheet, measured from the factory corner."""

    part: str
    x: Length
    y: Length
    length: Length
    width: Length
    turned: bool


class Sheet(Model):
    """One sheet to cut."""

    stock: str
    material: str
    length: Length
    width: Length
    edge_trim: Length
    kerf: Length
    margin: Length
    price: Money | None
    on_hand: bool
    first_cut: Literal["rip", "crosscut"]
    pieces: tuple[Piece, ...]
    cuts: tuple[Cut, ...] = ()
    """In the order in which they are made."""
    offcuts: tuple[Offcut, ...] = ()
    """Leftovers worth keeping."""
    slack: SheetSlack | None = None


class StickPiece(Model):
    """A part where it lies on its stick."""

    part: str
    start: Length
    length: Length


class Stick(Model):
    """One stick of moulding to cut."""

    stock: str
    length: Length
    price: Money | None
    on_hand: bool
    kerf: Length
    pieces: tuple[StickPiece, ...]
    slack: Length | None = None
    """Left after its pieces and the cuts between them."""
    cuts: tuple[StickCut, ...] = ()
    """In the order in which they are made; none for a piece that is all that is left."""


class Cost(Model):
    """What it costs, as far as prices are known."""

    currency: str
    sheets: Money
    mouldings: Money
    stock_bound: Money
    """Proven lower bound of sheets and mouldings together."""
    total: Money
    total_is: str = "stock"
    complete: bool
    """False where something counted has no price."""


class Scores(Model):
    """What the option looks like, in figures."""

    rhythm: Length
    """Score of the chosen rhythm, to the nearest tick; 0 is perfect."""
    headroom_least: Length | None
    headroom_typical: Length | None
    """Median of the headroom over each non-empty opening's tallest thing."""
    headroom_spread: Length
    """Largest less smallest of the same."""
    wishes_missed: int
    """Things that stand elsewhere than wished."""
    fill_least: float
    fill_most: float
    board_used: float
    """Area of the parts over the area of the sheets [-]."""


class Change(Model):
    """A change that would let everything fit, computed and confirmed by solving."""

    what: Literal[
        "headroom", "gap", "end margin", "height", "width", "depth", "shelves", "lying",
        "stacking", "rows", "several", "leave out", "load",
    ]  # fmt: skip
    by: Length | None = None
    """How much less headroom, gap or end margin, or more height, width, depth."""
    alters: tuple[Altered, ...] = ()
    """What is changed; several things where no single one would do."""
    leaves: dict[str, int] = Field(default_factory=dict)
    """How many of which kind are left out."""
    text: str
    proven: bool
    """True where less would not do."""


class MatchedSet(Model):
    """The wish that some parts come from one sheet, in sequence, so that the figure runs on."""

    name: str
    parts: tuple[str, ...]
    """Ids in their order: as they lie, from the factory corner on, if granted."""
    granted: bool
    sheet: int | None = None
    """Number of the sheet they lie on, from 1, if granted."""
    laid: Literal["along", "across"] | None = None
    """How they follow one another: along the sheet's length, end to end, or across it."""
    costs: Money | None = None
    """What it would cost more, if not granted; None where prices are missing or unknown."""
    more_sheets: int | None = None
    """How many more sheets it would take, if not granted; None where it is not known."""
    why: str | None = None
    """Why it is not granted, where that is not the price."""


class OpenSize(Model):
    """A size that the job leaves open, and what was chosen; as the case's sizes are given."""

    case: str
    what: Literal["width", "height", "depth"]
    least: Length
    most: Length
    wish: Length
    chosen: Length


class Option(Model):
    """One combination of shelf counts, everything else decided."""

    name: str
    shelf_counts: dict[str, tuple[int, ...]]
    status: Status
    why: str | None
    changes: tuple[Change, ...] = ()
    stages: tuple[Stage, ...]
    cases: tuple[CasePlan, ...]
    open_sizes: tuple[OpenSize, ...] = ()
    """The sizes that were decided with the sheets; the number of bays is that of shelf_counts."""
    left_out: tuple[LeftOut, ...]
    parts: tuple[Part, ...]
    sheets: tuple[Sheet, ...]
    settings: tuple[SawSetting, ...] = ()
    """Settings of the saws in the order of the work, equal ones together over all sheets."""
    sets: tuple[MatchedSet, ...] = ()
    """What came of the wishes for matched parts."""
    mouldings: tuple[Stick, ...]
    sheet_count: int
    sheet_bound: int
    cost: Cost | None
    scores: Scores | None
    notes: tuple[str, ...] = ()
    have: HaveOutcome | None = None
    """What of that which is there is used for what, where the job says what is there."""
    band: Band | None = None
    """What holds for every thickness of the band, where the sheet is not measured yet."""
    strength: Strength | None = Field(default=None, exclude_if=lambda found: found is None)
    """How far its shelves sag, against which limits; left off plans of before."""
    collision: Collision | None = None
    """Why what is held cannot be held, and what works instead."""
    advice: tuple[Advice, ...] = ()
    """Small changes that save stock, least disturbance first; of the recommended option."""
    advice_note: str | None = None
    """What is known where there is no advice."""
    least_slack: Length | None = None
    """Least slack of any sheet or stick."""
    tags: tuple[Literal["recommended", "cheapest", "best-looking"], ...] = ()

    @property
    def fits_all(self) -> bool:
        """True where there is a layout and nothing is left out."""
        return bool(self.cases) and not self.left_out


class Timing(Model):
    """Wall-clock figures; the only part of a plan that may differ between runs."""

    model_config = ConfigDict(extra="allow")

    seconds: float


class Plan(Model):
    """Everything that was decided, and the job as understood."""

    schema_: Literal["casewright/plan/1"] = Field(default="casewright/plan/1", alias="schema")
    version: str
    unit: Literal["in", "mm"]
    job: Job
    job_hash: str
    options: tuple[Option, ...]
    """Recommended first."""
    not_shown: int = 0
    """How many worse combinations are left out of `options`."""
    recommendation: str | None = None
    """Which option is recommended and why, in one sentence."""
    near: tuple[NearMiss, ...] = ()
    """Small changes of the job that would gain something, most valuable first."""
    near_note: str | None = None
    """What was looked for and proven where there is no near miss."""
    comparison: Comparison | None = None
    """What has changed since the plan that this one starts from."""
    timing: Timing

    def to_json(self, *, timing: bool = True) -> str:
        """Return the plan as JSON text; without `timing` it repeats byte for byte."""
        import json

        data: dict[str, Any] = self.model_dump(mode="json", by_alias=True)
        if not timing:
            del data["timing"]
        return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


class CutPlan(Model):
    """The answer of `casewright cut`."""

    schema_: Literal["casewright/cut/1"] = Field(default="casewright/cut/1", alias="schema")
    unit: Literal["in", "mm"]
    status: Status
    sheets: tuple[Sheet, ...] | None = None
    settings: tuple[SawSetting, ...] = ()
    """Settings of the saws in the order of the work, equal ones together over all sheets."""
    shop: Shop | None = None
    """The saws that the cuts are meant for."""
    sets: tuple[MatchedSet, ...] = ()
    """What came of the wishes for matched parts."""
    mouldings: tuple[Stick, ...] | None = None
    sheet_count: int
    sheet_bound: int
    cost: Cost
    parts: tuple[Part, ...] = ()
    advice: tuple[Advice, ...] = ()
    """Small changes that save stock, least disturbance first."""
    advice_note: str | None = None
    """What is known where there is no advice."""
    least_slack: Length | None = None
    """Least slack of any sheet or stick."""
    timing: Timing


def money(cents: int) -> Decimal:
    """Return whole cents as an amount of money."""
    return Decimal(cents).scaleb(-2)
