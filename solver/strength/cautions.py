"""Cautions that a job calls for, each with its source, and refusals of what must not be built.

None of it is advice on a code: every line gives way to local code and licensed practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.doorway.old_door import DUTIES, Provided, bans
from solver.errors import CannotBeDoneError
from solver.job.case import Case
from solver.job.doorway import Doorway, OldDoor
from solver.job.job import Job
from solver.plan.built import CasePlan, Placement
from solver.plan.hanging import Caution
from solver.plan.plan import Option
from solver.strength.weights import contents, empty_case, things_in
from solver.units import TICKS_PER_INCH, format_mass, inch_rule, with_unit

DEFER = (
    "All of it is an estimate: local code, licensed practice and the makers' instructions come"
    " first."
)
"""Last line of every list of cautions."""
LEAD_YEAR = 1978
"""Houses built before it may have lead paint: 40 CFR 745 subpart E, as quoted."""
ASBESTOS_YEAR = 1980
"""Materials of houses built before it may hold asbestos: EPA and OSHA, as quoted."""
OLD_DOOR_NAMES = {
    "louvred": "Louvred door",
    "return_air": "Return air",
    "appliance": "Appliance behind",
    "panel": "Electrical panel behind",
    "shut_off": "Shut-offs behind",
    "switch": "Switch, outlet or alarm",
    "privacy": "Privacy",
    "entered": "Somebody can be behind it",
}
"""What the old door did, by the key of its question. Exits and fire doors are not among it: they
are refused, or cleared by somebody who is named."""
PROJECTS_MOST, CANE = 4 * TICKS_PER_INCH, 27 * TICKS_PER_INCH
"""A leading edge higher than 27 in projects at most 4 in into a walk: ADA 307.2, as quoted."""
ACCESSIBLE = 32 * TICKS_PER_INCH
"""Clear width of an accessible doorway, from the open leaf to the stop: 2010 ADA 404.2.3 and IRC
R311.2, as quoted [tick]."""
TOP_HEAVY = 3
"""Things higher than this many times their depth are called top-heavy: common practice [-]."""
LIFT_PER_PERSON = 23_000
"""Mass for one person to lift, NIOSH lifting equation's constant, from memory [g]."""
HARMFUL_DUST = ("oak", "beech", "birch", "mahogany", "teak", "walnut")
"""Woods that OSHA's wood-dust page lists as confirmed or suspected carcinogens."""


def _caution(key: str, text: str, source: str) -> Caution:
    return Caution(key=key, text=text, source=source)


def refusals(job: Job) -> tuple[Caution, ...]:
    """Return the reasons why the job may not be planned as it is; empty where nothing forbids it.

    Only answers count: a question that was not asked refuses nothing.
    """
    doors = {doorway.name: doorway for doorway in job.doorways}
    return tuple(
        caution
        for case in job.cases
        if case.doorway is not None and case.kind in ("hung", "built-in")
        for caution in _refused(job, case, doors[case.doorway])
    )


def refuse(job: Job) -> None:
    """Raise CannotBeDoneError where what the old door did forbids a case in its place."""
    reasons = refusals(job)
    if reasons:
        raise CannotBeDoneError("\n".join(["not planned", *(reason.line for reason in reasons)]))


def _refused(job: Job, case: Case, doorway: Doorway) -> Iterator[Caution]:
    old = doorway.old_door or OldDoor()
    provided = Provided(case.kind == "hung", bool(job.ground.air), job.ground.opens_inside)
    for ban in bans(old, provided):
        text = f"doorway {doorway.name!r}: {ban.why}. Refused unless {ban.unless}"
        yield _caution(ban.key, text, ban.source)


def cautions_of(job: Job, option: Option) -> tuple[Caution, ...]:
    """Return the cautions that an option calls for: first of the place, then of the work."""
    cautions = [*_country(job), *_house(job)]
    for planned in option.cases:
        case = job.case(planned.name)
        cautions += [*_doorway(job, case), *_case(job, option, case, planned)]
    cautions += _materials_and_saws(job, option)
    return tuple({caution.line: caution for caution in cautions}.values())


def _country(job: Job) -> Iterator[Caution]:
    country = job.ground.country
    if country != "US":
        where = "the country is not given" if country is None else f"the country is {country}"
        yield _caution(
            "country",
            f"Rules quoted are those of the US: {where}, so local rules are not covered here.",
            "[site] country",
        )


def _house(job: Job) -> Iterator[Caution]:
    built = job.head.house_built
    if any(case.kind in ("hung", "built-in") for case in job.cases) and (
        built == "unknown" or built < LEAD_YEAR
    ):
        age = "is of unknown age" if built == "unknown" else f"was built in {built}"
        yield _caution(
            "lead-paint",
            f"Lead paint: the house {age}; test old paint, or treat it as lead, before it is cut "
            "or sanded. In the US work for pay that disturbs more than a little of it is for a "
            "certified firm.",
            "40 CFR 745 subpart E, as quoted",
        )
    fixed = any(case.kind != "standing" for case in job.cases)
    if fixed and (built == "unknown" or built < ASBESTOS_YEAR):
        yield _caution(
            "asbestos",
            "Asbestos: floor tile, joint compound and texture of a house of that age may hold "
            "it; leave sound material alone, have it tested before it is cut or sanded.",
            "EPA and CPSC advice, as quoted by riskremoval.com and 222health.com",
        )
    if job.ground.earthquakes:
        yield _caution(
            "earthquakes",
            "Earthquakes: straps that give, ledges on shelves, heavy things low.",
            "earthquakecountry.org bookcases",
        )


def _doorway(job: Job, case: Case) -> Iterator[Caution]:
    doorway = next((place for place in job.doorways if place.name == case.doorway), None)
    old = doorway.old_door if doorway is not None else None
    if old is None:
        if case.kind == "hung":
            yield _caution(
                "not-asked",
                "What the old door did (air, appliance, panel, shut-offs, exit, fire door) has "
                "not been asked: ask before anything is cut.",
                "casewright survey",
            )
        return
    if old.cleared_by:
        yield _caution("cleared", f"Cleared by {old.cleared_by}, as the job says.", "[[doorway]]")
    for duty in DUTIES:
        if getattr(old, duty.key) == "yes" and duty.key in OLD_DOOR_NAMES:
            key, text = duty.key.replace("_", "-"), f"{OLD_DOOR_NAMES[duty.key]}: {duty.then}."
            yield _caution(key, text, duty.source)
    unknown = [duty.key.replace("_", " ") for duty in DUTIES if getattr(old, duty.key) == "unknown"]
    if unknown:
        text = f"Not known yet of the old door: {', '.join(unknown)}; ask before anything is cut."
        yield _caution("not-known", text, "casewright survey")


def _case(job: Job, option: Option, case: Case, planned: CasePlan) -> Iterator[Caution]:
    things = list(things_in(planned))
    if case.kind == "hung":
        yield _caution(
            "pinch",
            "Fingers: the wedge at the hinge side and the closing latch gap pinch.",
            "practice",
        )
        if planned.swing is not None and planned.swing.passage_90 < ACCESSIBLE:
            beside = with_unit(planned.swing.passage_90, job.unit)
            yield _caution(
                "passage",
                f"Way in: open at a right angle it leaves {beside} beside it, and an accessible "
                f"way is {inch_rule(ACCESSIBLE, job.unit)} clear by the US rule: show the client "
                "before they sign.",
                "2010 ADA 404.2.3, as quoted",
            )
        names = list(dict.fromkeys(t.item for t in things if _is_top_heavy(t)))
        if names:
            keeps = "" if case.lip is not None and case.lip.above else "; there is no lip above"
            yield _caution(
                "top-heavy",
                f"Top-heavy on a moving case, each needs a lip or a restraint{keeps}: "
                f"{', '.join(names[:6])}{' and more' if len(names) > 6 else ''}.",
                "practice",
            )
    if case.kind == "wall" and planned.outside.depth > PROJECTS_MOST and case.above_floor > CANE:
        yield _caution(
            "projects",
            f"Deeper than {inch_rule(PROJECTS_MOST, job.unit)} and higher than "
            f"{inch_rule(CANE, job.unit)} above the floor, the most by the US rule: not over an "
            "accessible route; a cane does not find it.",
            "ADA 307.2, as quoted",
        )
    if job.ground.children is not False and case.kind in ("standing", "built-in"):
        yield _caution(
            "children",
            "Children climb: fix it to the wall whatever its height; nothing tempting up high.",
            "16 CFR 1261 and ASTM F2057-23 as a yardstick, as quoted",
        )
    yield from _lifting(job, option, planned)


def _is_top_heavy(thing: Placement) -> bool:
    return thing.height > TOP_HEAVY * min(thing.depth, thing.width)


def _lifting(job: Job, option: Option, planned: CasePlan) -> Iterator[Caution]:
    empty = empty_case(job, option, planned)
    people = max(1, -(-empty.grams // LIFT_PER_PERSON))
    if people > job.ground.lifters:
        yield _caution(
            "lifting",
            f"Lifting {planned.name}: empty it weighs {format_mass(empty.grams, job.unit)}; "
            f"{people} people, or a lift, for {job.ground.lifters} there.",
            "51 lb (23 kg) each: NIOSH lifting equation, from memory",
        )
    inside = contents(planned)
    if job.ground.children is not False and planned.kind == "hung" and inside.grams:
        yield _caution(
            "swinging",
            "Children: a case that swings loaded hits and pinches; a limit stop, and no climbing.",
            "practice",
        )


def _materials_and_saws(job: Job, option: Option) -> Iterator[Caution]:
    glass = job.ground.glass
    if glass != "none" or any(case.glass is not None for case in job.cases):
        hung = any(case.kind == "hung" for case in job.cases)
        needs = (
            "glass in a case hung in a doorway is arguably glass in a door: tempered or laminated"
            if hung
            else "doors and low glass: tempered or laminated; shelves: tempered, seamed edges"
        )
        wrong = " Ordinary glass is named: change it." if glass == "ordinary" else ""
        wrong = " Which glass is not said: name it." if glass == "none" else wrong
        yield _caution("glass", f"Glass: {needs}.{wrong}", "16 CFR 1201, as quoted")
    names = {*job.ground.boards.values(), *job.ground.boards, *(s.material for s in job.sheets)}
    if any(wood in name.lower() for name in names for wood in HARMFUL_DUST):
        yield _caution(
            "dust",
            "Dust of oak, beech, birch, walnut: dust collection first, then N95 or better.",
            "osha.gov wood dust; NIOSH limit 1 mg/m3",
        )
    yield _caution(
        "saws",
        "Saws and dust: guards on, eyes, ears and lungs covered; try the first piece in its place "
        "before cutting the rest.",
        "OSHA 1910.213, from memory",
    )
    yield _caution(
        "formaldehyde",
        "Sheets: buy those labelled TSCA Title VI (or CARB 2), or what the country asks for.",
        "40 CFR 770.10, as quoted",
    )
