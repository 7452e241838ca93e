"""Which point of the front is recommended, and why, in plain words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from solver.job import Job
from solver.layout.evenness import Evenness
from solver.planning.combinations import name_of
from solver.planning.front.lanes import Candidate
from solver.planning.recommend import Least
from solver.planning.scores import rounded
from solver.units import with_unit


@dataclass(frozen=True)
class Choice:
    """Indices of the three points that are always shown [-]."""

    recommended: int
    cheapest: int
    looks: int

    def tags(self, index: int) -> tuple[str, ...]:
        """Return what a point is."""
        marks = (
            ("recommended", self.recommended),
            ("cheapest", self.cheapest),
            ("best-looking", self.looks),
        )
        return tuple(tag for tag, chosen in marks if chosen == index)


def choose(job: Job, points: Sequence[Candidate]) -> Choice:
    """Choose among the points of a front; there is at least one.

    Recommended is the best rhythm and headroom among those within `price_slack` of the
    cheapest; with prefer = "look", among all. Where nobody sees a difference the cheaper
    one is taken. Cheapest, or best-looking, is the recommended one itself where it costs
    no more, or looks no worse.
    """
    every = range(len(points))
    cheapest = min(every, key=lambda n: (*_price_key(job, points[n]), n))
    within = [n for n in every if points[n].level.cost <= _ceiling(job, points[cheapest])]
    best = _best_looking(job, points, list(every) if job.look.prefer == "look" else within)
    looks = _best_looking(job, points, list(every))
    if points[best].level.cost == points[cheapest].level.cost:
        cheapest = best
    if best in _finest(job, points, list(every)):
        looks = best
    return Choice(best, cheapest, looks)


def _ceiling(job: Job, cheapest: Candidate) -> Decimal:
    return cheapest.level.cost * (100 + Decimal(str(job.look.price_slack))) / 100


def _best_looking(job: Job, points: Sequence[Candidate], among: list[int]) -> int:
    return min(_finest(job, points, among), key=lambda n: (*_price_key(job, points[n]), n))


def _price_key(job: Job, one: Candidate) -> tuple[Decimal, int, str]:
    """What decides among options that look alike, as between the options of a plan."""
    return one.level.cost, one.level.sized.stock.sheet_count, name_of(job, one.level.counts)


def _finest(job: Job, points: Sequence[Candidate], among: list[int]) -> list[int]:
    """The best rhythm for each opening, of those the most even headroom, as far as one sees."""
    rhythm = min(points[n].look[0] for n in among)
    slack = Fraction(job.look.rhythm_slack, 4)
    alike = [n for n in among if points[n].look[0] <= rhythm + slack]
    even = min(points[n].look[1] for n in alike)
    most = Evenness(even.empty, even.spread + job.look.headroom_slack)
    return [n for n in alike if points[n].look[1] <= most]


def sentence(
    job: Job, points: Sequence[Candidate], choice: Choice, *, stopped: bool = False
) -> str:
    """Say which point is recommended and why, what the cheapest saves, what the best look costs."""
    best, cheapest, looks = (points[n] for n in (choice.recommended, choice.cheapest, choice.looks))
    name = _name(job, points, choice.recommended)
    if len(points) == 1:
        so_far = " found so far" if stopped else ""
        return f"{name} is recommended: no other option{so_far} is as good in anything."
    least = Least(
        job.head.currency if all(one.level.priced for one in (best, cheapest, looks)) else None
    )
    if best is cheapest and best is looks:
        return f"{name} is recommended: {least.and_looks}."
    said = [f"{name} is recommended: {_reason(job, best, cheapest, least)}"]
    if best is not cheapest:
        cheaper = _name(job, points, choice.cheapest).lower()
        said.append(f"{cheaper} {least.does} {least.saves(*_dearer(best, cheapest))}")
    if best is not looks:
        better = _name(job, points, choice.looks).lower()
        more = least.more(*_dearer(looks, best), same=looks.level.cost == best.level.cost)
        said.append(f"{better} looks best ({_look(job, looks)}) and {more}")
    return "; ".join(said) + "."


def _name(job: Job, points: Sequence[Candidate], index: int) -> str:
    return f"No. {index + 1} ({name_of(job, points[index].level.counts)})"


def _reason(job: Job, best: Candidate, cheapest: Candidate, least: Least) -> str:
    if best is cheapest:
        return f"it {least.does} ({_look(job, best)})"
    if job.look.prefer == "look":
        return f"it is the best-looking, as the job asks ({_look(job, best)})"
    return f"the best look within {job.look.price_slack:g} % of {least.named} ({_look(job, best)})"


def _look(job: Job, one: Candidate) -> str:
    rhythm = with_unit(rounded(one.traded.rhythm), job.unit)
    text = f"{job.look.rhythm} rhythm off by {rhythm} over all openings"
    even = one.traded.even
    if job.look.rhythm != "to-fit":
        text += f", headroom within {with_unit(even.spread, job.unit)}"
    return f"{text}, {even.empty} empty" if even.empty else text


def _dearer(dear: Candidate, cheap: Candidate) -> tuple[Decimal, int]:
    """How much more one costs [money], and how many sheets more it takes [-]."""
    sheets = dear.level.sized.stock.sheet_count - cheap.level.sized.stock.sheet_count
    return dear.level.cost - cheap.level.cost, sheets
