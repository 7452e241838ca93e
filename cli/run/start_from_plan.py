"""Planning again: which plan is started from, and the words of --thickness."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cli.files.saved_answers import has_last, read_last
from cli.run.pipeline import Tell
from cli.run.plan_of import option_named
from cli.run.plan_pipeline import Planner, planner
from solver.carcass.thickness_band import as_measured
from solver.errors import InputError
from solver.job.job import Job
from solver.outcome import Limits
from solver.plan.plan import Option, Plan
from solver.units import Ticks, parse_length


@dataclass(frozen=True)
class Start:
    """What is started from, as given on the command line.

    Attributes
    ----------
    job
        The job file; None for a list of things.
    given
        The plan named by --from.
    option
        The name of its option.
    """

    job: str | None
    given: str | None
    option: str | None

    def read(self) -> tuple[Plan, Option | None]:
        """Read the plan that is started from, and its option where one is named."""
        last = read_last(self.job or "", self.given)
        return last, None if self.option is None else option_named(last, self.option)


def starts_from_plan(start: Start, *, held: bool, anew: bool) -> bool:
    """Whether a plan is started from; if not, the job is planned from nothing.

    That is so without holds on the command line and without --from, and where holds are
    given but no plan has been kept yet. With `anew` there must be a plan to compare with.
    """
    has_plan = start.job is not None and has_last(start.job)
    if anew and start.given is None and not has_plan:
        msg = "--anew compares with a plan before; there is none yet, so leave it out"
        raise InputError(msg, start.job)
    if anew or start.given is not None or (held and has_plan):
        return True
    if start.option is not None:
        msg = "--option goes with --from, or with --hold once the job has been planned"
        raise InputError(msg)
    return False


def planner_again(job: Job, limits: Limits, start: Start) -> Planner:
    """Return what plans `job` again from the plan that `start` names."""
    from solver.replan.plan_again import plan_again

    last, option = start.read()
    measured = as_measured(job, last)
    return lambda _tell: plan_again(measured, last, limits, option=option)


def planner_anew(job: Job, limits: Limits, start: Start) -> Planner:
    """Return what plans `job` from nothing, and compares the result with a plan before.

    Nothing is kept of that plan but what is held.
    """
    from solver.replan.comparison import comparison

    last, named = start.read()
    old = named or next((option for option in last.options if option.cases), None)
    make = planner(job, limits, near=False)

    def compared(tell: Tell) -> Plan:
        plan = make(tell)
        new = plan.options[0]
        if old is None or not new.cases:
            return plan
        return plan.model_copy(update={"comparison": comparison(last, old, plan.job, new)})

    return compared


def planner_measured(
    job: Job, limits: Limits, start: Start, thickness: Mapping[str, Ticks]
) -> Planner:
    """Return what issues marks and parts again for measured thicknesses [tick], by material."""
    from solver.replan.plan_again import remeasured_plan

    last, option = start.read()
    return lambda _tell: remeasured_plan(job, last, thickness, limits, option=option)


OPTION = "--thickness"


def measured_thicknesses(job: Job, words: Sequence[str]) -> dict[str, Ticks]:
    """Return the measured thickness of each material named, by name [tick]."""
    thickness_of: dict[str, Ticks] = {}
    for text in words:
        named, sign, length = text.rpartition("=")
        name = named.strip() if sign else _only(job, text)
        if name in thickness_of:
            msg = f"the thickness of {name!r} is given twice; keep one of them"
            raise InputError(msg, OPTION)
        _check_known(job, name)
        try:
            thickness_of[name] = parse_length(length, job.unit)
        except InputError as error:
            raise InputError(error.message, OPTION) from None
        if not thickness_of[name]:
            msg = f"{text!r}: a board has some thickness; give what the calipers say"
            raise InputError(msg, OPTION)
    return thickness_of


def _check_known(job: Job, name: str) -> None:
    known = dict.fromkeys(sheet.material for sheet in job.sheets)
    if name not in known:
        msg = f"{name!r} is no material of the job; allowed: {', '.join(map(repr, known))}"
        raise InputError(msg, OPTION)


def _only(job: Job, text: str) -> str:
    """The material that a thickness without a name is of: the one open, or that of all cases."""
    from solver.carcass.thickness_band import bands

    still_open = list(bands(job))
    carcass = list(dict.fromkeys(case.material for case in job.cases))
    for names in (still_open, carcass):
        if len(names) == 1:
            return names[0]
    msg = (
        f"{text!r}: say of which material, such as {(still_open or carcass)[0]!r}={text}; "
        f"there are {', '.join(map(repr, still_open or carcass))}"
    )
    raise InputError(msg, OPTION)
