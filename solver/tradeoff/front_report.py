"""The front as it is reported: its points, the choice among them, what is open, what is beaten."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from solver.job.job import Job
from solver.layout.evenness import Evenness
from solver.layout.pareto_points import Box, Fineness, ParetoPoint
from solver.outcome import Status, program_version
from solver.plan.plan import Timing
from solver.plan.price_front import Fineness as ToldFineness
from solver.plan.price_front import FrontPoint, NotOnFront, OpenPart, TradeOff, square_metres
from solver.planning.option_stages import rounded
from solver.planning.recommend import CheapestWording
from solver.rules_version import RULES
from solver.sizing.combinations import Counts, name_of
from solver.tradeoff.price_levels import (
    Candidate,
    Finisher,
    LevelSearch,
    UncomparedSizes,
    beaten_in,
)
from solver.units import Ticks, with_unit


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


def recommendation_sentence(
    job: Job, points: Sequence[Candidate], choice: Choice, *, stopped: bool = False
) -> str:
    """Say which point is recommended and why, what the cheapest saves, what the best look costs."""
    best, cheapest, looks = (points[n] for n in (choice.recommended, choice.cheapest, choice.looks))
    name = _name(job, points, choice.recommended)
    if len(points) == 1:
        so_far = " found so far" if stopped else ""
        return f"{name} is recommended: no other option{so_far} is as good in anything."
    least = CheapestWording(
        job.head.currency if all(one.level.priced for one in (best, cheapest, looks)) else None
    )
    if best is cheapest and best is looks:
        return f"{name} is recommended: {least.and_looks}."
    parts = [f"{name} is recommended: {_reason(job, best, cheapest, least)}"]
    if best is not cheapest:
        cheaper = _name(job, points, choice.cheapest).lower()
        parts.append(f"{cheaper} {least.does} {least.saves(*_dearer(best, cheapest))}")
    if best is not looks:
        better = _name(job, points, choice.looks).lower()
        more = least.more(*_dearer(looks, best), same=looks.level.cost == best.level.cost)
        parts.append(f"{better} looks best ({_look(job, looks)}) and {more}")
    return "; ".join(parts) + "."


def _name(job: Job, points: Sequence[Candidate], index: int) -> str:
    return f"No. {index + 1} ({name_of(job, points[index].level.counts)})"


def _reason(job: Job, best: Candidate, cheapest: Candidate, least: CheapestWording) -> str:
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


OPEN = "the limits came before this part was searched"
NOTHING = "nothing was found by the limit"
SIZES = "other sizes at this price or a higher one were not compared"
UNPROVEN = "an option beaten as it stands might be bettered; the limits came before its proof"


@dataclass(frozen=True)
class NoOption:
    """What is said of a combination of shelf counts that has no option."""

    counts: Counts
    why: str


@dataclass(frozen=True)
class FrontReport:
    """All that was found, to be told."""

    job: Job
    searches: Sequence[LevelSearch]
    refused: Sequence[NoOption]
    fineness: Fineness
    untried: int
    finisher: Finisher

    def trade_off(self, timing: Timing, *, over: bool) -> TradeOff:
        """Return the front."""
        front = unbeaten([one for search in self.searches for one in search.candidates])
        choice = choose(self.job, front) if front else None
        points = self._points(front, choice) if choice is not None else ()
        open_parts = tuple(self._open(front))
        proven = all(point.proven for point in points)
        return TradeOff(
            version=program_version(),
            rules=RULES,
            unit=self.job.unit,
            job=self.job,
            job_hash=self.job.hash,
            fineness=ToldFineness(rhythm=self.fineness.rhythm, headroom=self.fineness.headroom),
            complete=proven and not open_parts and not self.untried and not over,
            stopped=over,
            points=points,
            open_parts=open_parts,
            not_on_front=tuple(self._not_on_front(front)),
            not_tried=self.untried,
            recommendation=None
            if choice is None
            else recommendation_sentence(self.job, front, choice, stopped=over),
            timing=timing,
        )

    def _points(self, front: Sequence[Candidate], choice: Choice) -> tuple[FrontPoint, ...]:
        best = front[choice.recommended]
        return tuple(
            _point(self.finisher, one, n, choice, _premium(one, best))
            for n, one in enumerate(front)
        )

    def _open(self, front: Sequence[Candidate]) -> Iterator[OpenPart]:
        for search in self.searches:
            trade = search.trade
            if self._between(search, front):
                yield self._part(search, None, SIZES)
            if not trade.points and trade.status is Status.UNKNOWN:
                yield self._part(search, None, NOTHING)
            for box in trade.boxes:
                if not self._beaten(search, box, front):
                    yield self._part(search, box, OPEN)
            for one in search.candidates:
                rest = Box(
                    (one.traded.rhythm_bound, None), (one.traded.even_bound, one.traded.even)
                )
                beaten = one in front or one.traded.proven or self._beaten(search, rest, front)
                if not beaten:
                    yield self._part(search, rest, UNPROVEN)

    def _between(self, search: LevelSearch, front: Sequence[Candidate]) -> bool:
        """Whether sizes of this combination that were not compared might give something better."""
        if search.between is not UncomparedSizes.IF_BETTER:
            return search.between is UncomparedSizes.SOME
        shown = {id(one.traded) for one in front}
        return any(
            not one.trade.points
            or bool(one.trade.boxes)
            or any(id(point) in shown for point in one.trade.points)
            for one in self.searches
            if one.level.floor is not None and one.level.counts == search.level.counts
        )

    def _beaten(self, search: LevelSearch, box: Box, front: Sequence[Candidate]) -> bool:
        return beaten_in(search, front, self.fineness)(box.rhythm[0], box.even[0])

    def _part(self, search: LevelSearch, box: Box | None, why: str) -> OpenPart:
        level = search.level
        return OpenPart(
            name=name_of(self.job, level.counts),
            shelf_counts=dict(level.counts),
            price=level.sized.stock.price,
            rhythm_least=None if box is None else int(box.rhythm[0]),
            headroom_least=None if box is None else box.even[0].spread,
            empty_least=None if box is None else box.even[0].empty,
            why=why,
        )

    def _not_on_front(self, front: Sequence[Candidate]) -> Iterator[NotOnFront]:
        for refused in self.refused:
            yield self._off(refused.counts, refused.why)
        shown = [dict(one.level.counts) for one in front]
        for search in (one for one in self.searches if one.level.floor is None):
            if dict(search.level.counts) not in shown and search.trade.status is not Status.UNKNOWN:
                yield self._off(search.level.counts, _why(search, front))

    def _off(self, counts: Counts, why: str) -> NotOnFront:
        return NotOnFront(name=name_of(self.job, counts), shelf_counts=dict(counts), why=why)


def unbeaten(candidates: Sequence[Candidate]) -> list[Candidate]:
    """Return those that no other beats, cheapest first, then by rhythm; twins once."""
    kept: list[Candidate] = []
    for one in candidates:
        twin = any(one.is_twin(other) for other in kept)
        if not twin and not any(other.beats(one) for other in candidates):
            kept.append(one)
    kept.sort(key=lambda one: (one.level.cost, *one.look))
    return kept


def _why(search: LevelSearch, front: Sequence[Candidate]) -> str:
    if not search.trade.points:
        left = search.trade.left_out
        if left is None:
            return "no shelf positions are allowed"
        return f"{left} thing{'' if left == 1 else 's'} would find no place"
    best = search.candidates[0]
    number = next(n for n, one in enumerate(front, start=1) if one.beats(best))
    return f"no. {number} is as good or better in price, rhythm and headroom"


def _point(
    finisher: Finisher, one: Candidate, index: int, choice: Choice, premium: Decimal | None
) -> FrontPoint:
    sized, traded = one.level.sized, one.traded
    option = finisher.option(one).model_copy(update={"tags": choice.tags(index)})
    assert option.scores is not None
    rhythm, bound = rounded(traded.rhythm), traded.even_bound
    return FrontPoint(
        number=index + 1,
        price=sized.stock.price,
        price_bound=sized.bound,
        area=square_metres(sized.stock.area_unpriced),
        rhythm=one.look[0],
        rhythm_sum=rhythm,
        rhythm_bound=rhythm if traded.rhythm_bound >= traded.rhythm else int(traded.rhythm_bound),
        headroom=option.scores.headroom_spread,
        headroom_bound=_headroom_bound(traded, option.scores.headroom_spread),
        empty_openings=traded.even.empty,
        empty_bound=bound.empty,
        proven=sized.price_proven and traded.proven,
        premium=premium,
        option=option,
    )


def _headroom_bound(traded: ParetoPoint, spread: Ticks) -> Ticks:
    """What the spread is at least; with fewer empty openings it could be anything."""
    if traded.even_bound >= traded.even:
        return spread
    return 0 if traded.even_bound.empty < traded.even.empty else traded.even_bound.spread


def _premium(one: Candidate, best: Candidate) -> Decimal | None:
    more = one.level.cost - best.level.cost
    return more if more >= 0 and one.level.priced and best.level.priced else None
