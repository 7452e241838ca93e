"""Steps of the whole job before a case is made: survey, sign-off, materials, cutting."""

from __future__ import annotations

from collections.abc import Iterator

from solver.costing.buy_list import sheet_lines, stick_lines
from solver.costing.hardware import hardware_list
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.plan.plan import Option
from solver.plan.work import Predecessor, StepCaution
from solver.sequence.saw_choice import ranges, set_to
from solver.units import Ticks, with_unit
from solver.work.step_draft import GOOD_FACE, Draft, called_for


def start_drafts(job: Job, option: Option, cautions: dict[str, StepCaution]) -> Iterator[Draft]:
    """Yield the steps up to the last cut."""
    yield Draft(
        "survey",
        "Survey the place",
        "site",
        does=tuple(_survey(job)),
        tools=("tape", "level", "straight edge", "square"),
        cautions=called_for(cautions, "not-asked", "panel", "shut-off"),
        takes=(("survey trip", 0),),
    )
    for planned in option.cases:
        yield Draft(
            f"drawing {planned.name}",
            f"Drawing for approval: {planned.name}",
            "desk",
            case=planned.name,
            takes=(("drawing", 0),),
            after=(Predecessor(step="survey"),),
        )
    yield Draft(
        "proposal",
        "Drawing and proposal, signed",
        "desk",
        does=(_payment(job), *_outsides(job, option)),
        takes=(("drawing and proposal", 0),),
        after=tuple(Predecessor(step=f"drawing {planned.name}") for planned in option.cases),
    )
    yield Draft(
        "materials",
        "Fetch sheets, mouldings and hardware",
        "shop",
        does=tuple(_materials(job, option)),
        tools=("calipers", "tape", "van"),
        cautions=called_for(cautions, "formaldehyde"),
        takes=(("fetching materials", 0),),
        after=(Predecessor(step="proposal"),),
    )
    yield Draft(
        "sheets",
        "Cut the sheets, in batches by setting",
        "shop",
        does=tuple(_settings(job, option)),
        tools=tuple(dict.fromkeys(setting.saw or "saw" for setting in option.settings)),
        cautions=(GOOD_FACE, *called_for(cautions, "saws", "dust")),
        takes=(("setting a saw", 0), ("sheet cut", 0), ("labelling", 1)),
        after=(Predecessor(step="materials"),),
    )
    if option.pieces[1]:
        yield Draft(
            "sticks",
            "Cut the mouldings to the stop",
            "shop",
            does=tuple(_sticks(job, option)),
            tools=("mitre saw", "stop block"),
            cautions=(GOOD_FACE, *called_for(cautions, "saws")),
            takes=(("stick cut", 0), ("labelling", 1)),
            after=(Predecessor(step="materials"),),
        )


def _survey(job: Job) -> Iterator[str]:
    for doorway in job.doorways:
        yield from _measured(doorway, job)
    free = [case.name for case in job.cases if case.doorway is None]
    if free:
        yield f"{', '.join(free)}: place and way in measured, floor and wall out of level noted"


def _measured(doorway: Doorway, job: Job) -> Iterator[str]:
    def say(lengths: tuple[Ticks, ...]) -> str:
        return ", ".join(with_unit(length, job.unit) for length in lengths)

    least = with_unit(min(doorway.widths), job.unit)
    low = with_unit(min(doorway.heights), job.unit)
    yield f"{doorway.name}: widths {say(doorway.widths)}: least {least}"
    yield f"{doorway.name}: heights {say(doorway.heights)}: least {low}"
    if doorway.diagonals:
        out = with_unit(abs(doorway.diagonals[0] - doorway.diagonals[1]), job.unit)
        yield f"{doorway.name}: diagonals {say(doorway.diagonals)}: {out} out of square"
    yield f"{doorway.name}: measure again before the first cut; anything less, and plan again"


def _payment(job: Job) -> str:
    first = job.terms.stages[0]
    return f"{first.share:f} % {first.when}; the price holds {job.terms.valid_days} days"


def _outsides(job: Job, option: Option) -> Iterator[str]:
    for planned in option.cases:
        size = planned.outside
        three = (size.width, size.height, size.depth)
        text = " x ".join(with_unit(length, job.unit) for length in three)
        yield f"{planned.name}: {text} outside, {option.name}"


def _materials(job: Job, option: Option) -> Iterator[str]:
    for line in (*sheet_lines(option, job.unit), *stick_lines(option, job.unit)):
        there = f", {line.on_hand} of them there" if line.on_hand else ""
        yield f"{line.need} {line.named}{there}"
    rest = len(hardware_list(job, option))
    yield f"hardware, screws, glue and finish: {rest} lines of casewright buy"
    for material in dict.fromkeys(sheet.material for sheet in option.sheets):
        thick = with_unit(job.thickness(material), job.unit)
        known = f"{material}: measure it with calipers; planned for {thick}"
        yield f"{known}, else casewright plan --thickness"


def _settings(job: Job, option: Option) -> Iterator[str]:
    if option.shared is not None:
        sheets = ranges(sorted(set(option.shared.sheets.values())))
        yield f"cut with the other jobs of the batch: its parts come from sheets {sheets} there"
    for setting in option.settings:
        trim = ", trimming" if setting.trim else ""
        cuts = "; ".join(f"sheet {some.sheet}: {ranges(some.cuts)}" for some in setting.cuts)
        stands = ", as it stands" if setting.as_it_stands else ""
        where = set_to(setting.saw, setting.guide, setting.setting, job.unit)
        saw = setting.saw or "no saw"
        yield f"{setting.number}. {saw}, {where} {job.unit}{trim}{stands}: {cuts}"
    yield "label each part as it comes off: name, face, top, edge that gets the lip"


def _sticks(job: Job, option: Option) -> Iterator[str]:
    if option.shared is not None:
        yield "cut with the other jobs of the batch: stops and sticks are in its file"
    counts: dict[tuple[str, bool, Ticks], int] = {}
    for stick in option.mouldings:
        for piece in stick.pieces:
            kind = stick.stock, "/trim-band-" in piece.part, piece.length
            counts[kind] = counts.get(kind, 0) + 1
    for stock, band, length in sorted(counts, key=lambda one: (one[0], -one[2])):
        count = counts[stock, band, length]
        how = "cut with a knife at" if band else "stop at"
        pieces = f"{count} piece{'s' if count > 1 else ''}"
        yield f"{stock}: {how} {with_unit(length, job.unit)}, {pieces}"
