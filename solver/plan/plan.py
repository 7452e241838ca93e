"""The answer: frozen, complete, and the source of every table, drawing and document.

Keys are those of the published plan format. All lengths are ticks inside and
millimetres in JSON; `x` runs from the left, heights from the bottom end of the
case's sides, `z` from the front of the shelf back.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, PlainSerializer

from solver.job.job import Job, Shop
from solver.outcome import Status
from solver.plan.bands import Band
from solver.plan.built import CasePlan, LinesApart, SharedLines, Strength
from solver.plan.compared import Collision, Comparison
from solver.plan.hanging import Hanging
from solver.plan.on_hand import HaveOutcome
from solver.plan.saw_cuts import SawSetting
from solver.plan.slack_and_advice import Advice, Alteration, Binding, NearMiss
from solver.plan.stocked import MatchedSet, Part, SharedStock, Sheet, Stick
from solver.quantities import Length, Mass, Model, Money
from solver.rules_version import UNNUMBERED


def _tidy(value: float | str | None) -> float | str | int | None:
    return int(value) if isinstance(value, float) and value.is_integer() else value


StageFigure = Annotated[float | str | None, PlainSerializer(_tidy, when_used="json")]
"""A stage's value: money as text, lengths in mm, counts as they are."""


class Stage(Model):
    """One wish of the order of wishes: what was reached, what is proven."""

    name: str
    value: StageFigure
    bound: StageFigure
    proven: bool
    unit: str
    """What the figures count: "mm", "mm2", "money", "things" or another of
    :data:`solver.plan.stage_units.STAGE_UNITS`."""
    note: str | None = None
    """What the bound holds for, where it is not all plans."""
    sentence: str | None = Field(default=None, exclude_if=lambda sentence: sentence is None)
    """What was reached, for people; left off where there is nothing to say."""


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

    places_parted: int
    """How often things of a kind, a heading or a group are parted: the stages `headings` and
    `together` added up [-]."""
    steps_range: Length | None
    """Largest less smallest step from an opening to the next, as the stage `steady` counts it;
    None under three openings."""
    steps_mean: Length | None
    """Mean step from an opening to the next one up, to the nearest tick; negative where openings
    grow upwards; None where `steps_range` is."""
    headroom_least: Length | None
    headroom_typical: Length | None
    """Median of the headroom over each non-empty opening's tallest thing."""
    headroom_spread: Length
    """Largest less smallest of the same."""
    wishes_missed: int
    """Things that miss what was asked for by name, as the stage `asked` counts them [-]."""
    fill_least: float
    fill_most: float
    board_used: float
    """Area of the parts over the area of the sheets [-]."""
    outline_missed: float
    """How far the rows are from mirror images, as the stage `composition` counts it [%]."""


class Change(Model):
    """A change that would let everything fit, computed and confirmed by solving."""

    what: Literal[
        "headroom", "gap", "end margin", "height", "width", "depth", "shelves", "lying",
        "stacking", "rows", "lip", "thickness", "uprights", "several", "leave out", "load",
    ]  # fmt: skip
    by: Length | None = None
    """How much less headroom, gap or end margin, or more height, width, depth."""
    alters: tuple[Alteration, ...] = ()
    """What is changed; several things where no single one would do."""
    leaves: dict[str, int] = Field(default_factory=dict)
    """How many of which kind are left out."""
    text: str
    proven: bool
    """True where less would not do."""


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
    binds: tuple[Binding, ...] = Field(default=(), exclude_if=lambda found: not found)
    """What keeps things out, the first of them named in `why`: each by itself, or where no limit
    alone does, the fewest together. Empty where everything fits, or several limits bind at once.
    """
    changes: tuple[Change, ...] = ()
    stages: tuple[Stage, ...]
    cases: tuple[CasePlan, ...]
    lines: tuple[SharedLines, ...] = ()
    """The bays that share shelf lines; a bay in none of them has its own. Left off plans of
    before."""
    lines_apart: tuple[LinesApart, ...] = ()
    """The bays that the job asks to share shelf lines, and that cannot."""
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
    hanging: Hanging | None = Field(default=None, exclude_if=lambda found: found is None)
    """What holds its cases up: weights, hinges, joints, fixings, cautions; left off plans of
    before."""
    shared: SharedStock | None = Field(default=None, exclude_if=lambda found: found is None)
    """Where its parts are cut, where it is built in a batch; it then has no sheets of its own,
    and its cost is its share of those of the batch."""
    collision: Collision | None = None
    """Why what is held cannot be held, and what works instead."""
    advice: tuple[Advice, ...] = ()
    """Small changes that save stock, least disturbance first; of the recommended option."""
    advice_note: str | None = None
    """What is known where there is no advice."""
    least_slack: Length | None = None
    """Least slack of any sheet or stick."""
    tags: tuple[Literal["recommended", "cheapest", "best-looking"], ...] = ()

    @classmethod
    def without_layout(
        cls,
        name: str,
        shelf_counts: Mapping[str, tuple[int, ...]],
        status: Status,
        why: str,
        *,
        changes: tuple[Change, ...] = (),
        collision: Collision | None = None,
    ) -> Option:
        """Return an option for which there is no layout, and why."""
        return cls(
            name=name,
            shelf_counts=dict(shelf_counts),
            status=status,
            why=why,
            changes=changes,
            stages=(),
            cases=(),
            left_out=(),
            parts=(),
            sheets=(),
            mouldings=(),
            sheet_count=0,
            sheet_bound=0,
            cost=None,
            scores=None,
            collision=collision,
        )

    @property
    def pieces(self) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Ids of what is cut from sheets, and from sticks, its own or those of a batch."""
        if self.shared is not None:
            return tuple(self.shared.sheets), tuple(self.shared.mouldings)
        return (
            tuple(piece.part for sheet in self.sheets for piece in sheet.pieces),
            tuple(piece.part for stick in self.mouldings for piece in stick.pieces),
        )

    @property
    def lines_given_up(self) -> bool:
        """True where bays have lines of their own so that everything fits."""
        return any(one.because == "fit" for one in self.lines_apart)

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
    rules: int = UNNUMBERED
    """Number of the rules it was made by, as :data:`solver.rules_version.RULES` counts them [-]."""
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
    rules: int = UNNUMBERED
    """Number of the rules it was made by, as :data:`solver.rules_version.RULES` counts them [-]."""
    timing: Timing


def money(cents: int) -> Decimal:
    """Return whole cents as an amount of money."""
    return Decimal(cents).scaleb(-2)
