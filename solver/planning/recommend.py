"""Which option is recommended, which is cheapest and best-looking, and why in one sentence.

What looks best is said in :mod:`solver.planning.best_look`.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from solver.job.job import Job
from solver.outcome import Status
from solver.plan.plan import Option
from solver.planning.best_look import look_of, reason


@dataclass(frozen=True)
class CheapestWording:
    """How the option with the least price or stock is spoken of.

    Attributes
    ----------
    currency
        Of the prices; None where something that is bought has none, so that sheets are
        compared by their area.
    """

    currency: str | None

    @property
    def named(self) -> str:
        """Return what it is."""
        return "the least stock" if self.currency is None else "the cheapest"

    @property
    def does(self) -> str:
        """Return the same after a name."""
        return f"{'takes' if self.currency is None else 'is'} {self.named}"

    @property
    def and_looks(self) -> str:
        """Return why an option is recommended that is best in both."""
        looks = "looks best" if self.currency is None else "the best-looking"
        return f"it {self.does} and {looks}"

    def saves(self, money: Decimal, sheets: int) -> str:
        """Return what it saves against another, `money` dearer with so many more `sheets`."""
        if self.currency is not None:
            return f"and saves {self.currency} {money}"
        return f"and saves {_sheets(sheets)}" if sheets > 0 else "in smaller sheets"

    def more(self, money: Decimal, sheets: int, *, same: bool) -> str:
        """Return what the other one takes more; `same` where that is nothing."""
        if same:
            return "costs the same" if self.currency is not None else "takes no more stock"
        if self.currency is not None:
            return f"costs {self.currency} {money} more"
        return f"takes {_sheets(sheets)} more" if sheets > 0 else "takes larger sheets"


def _sheets(count: int) -> str:
    return f"{count} sheet{'' if count == 1 else 's'}"


_ORDER = {Status.OPTIMAL: 0, Status.FEASIBLE: 1, Status.INFEASIBLE: 2, Status.UNKNOWN: 3}


def ranked(job: Job, options: list[Option]) -> tuple[tuple[Option, ...], str | None]:
    """Order the options, recommended first, tag them, and say why in one sentence.

    Recommended is the best look among those within `price_slack` of the cheapest that fits
    everything; with prefer = "look", among all that fit everything. Of those that look alike
    it is the cheapest.
    """
    fitting = [option for option in options if option.fits_all]
    if not fitting:
        return tuple(sorted(options, key=_least_missing)), None
    choice = choose(job, fitting)
    tagged = [option.model_copy(update={"tags": choice.tags(option)}) for option in options]
    tagged.sort(key=lambda option: (*_rank(option), _ORDER[option.status], _price_key(option)))
    best = choice.recommended
    if len(options) == 1:
        return tuple(tagged), f"{best.name}: the one count asked for, and everything fits."
    if len(fitting) == 1:
        return tuple(tagged), _only_one(best, options)
    return tuple(tagged), sentence(job, fitting, choice)


@dataclass(frozen=True)
class Choice:
    """The options that are always shown; one may be several of them."""

    recommended: Option
    cheapest: Option
    looks: Option

    def tags(self, option: Option) -> tuple[str, ...]:
        """Return what an option is."""
        marks = (
            ("recommended", self.recommended),
            ("cheapest", self.cheapest),
            ("best-looking", self.looks),
        )
        return tuple(tag for tag, chosen in marks if option is chosen)


def choose(job: Job, fitting: list[Option]) -> Choice:
    """Choose among options that fit everything; there is at least one.

    Cheapest, or best-looking, is the recommended one itself where it costs no more, or looks
    as good.
    """
    cheapest, looks = min(fitting, key=_price_key), _best_looking(fitting)
    ceiling = _cost(cheapest) * (100 + Decimal(str(job.look.price_slack))) / 100
    within = [option for option in fitting if _cost(option) <= ceiling]
    best = _best_looking(fitting if job.look.prefer == "look" else within)
    return Choice(
        recommended=best,
        cheapest=best if _cost(best) == _cost(cheapest) else cheapest,
        looks=best if look_of(best) == look_of(looks) else looks,
    )


def _cost(option: Option) -> Decimal:
    """Price, or where nothing has a price the area of the sheets bought."""
    assert option.cost is not None
    area = sum(s.length * s.width for s in option.sheets if not s.on_hand and s.price is None)
    return option.cost.total if option.cost.complete else option.cost.total + Decimal(area)


def _price_key(option: Option) -> tuple[Decimal, int, str]:
    cost = Decimal(0) if option.cost is None else _cost(option)
    return cost, option.sheet_count, option.name


def _least_missing(option: Option) -> tuple[int, int, tuple[Decimal, int, str]]:
    missing = sum(one.count for one in option.left_out) if option.cases else 1 << 30
    return missing, _ORDER[option.status], _price_key(option)


def _rank(option: Option) -> tuple[bool, bool, bool]:
    """Recommended first, then cheapest and best-looking: they are shown whatever is left out."""
    return "recommended" not in option.tags, not option.tags, not option.fits_all


def _best_looking(options: list[Option]) -> Option:
    """The best look, and of those that look alike the cheapest."""
    return min(options, key=lambda option: (look_of(option), _price_key(option)))


def _only_one(best: Option, options: list[Option]) -> str:
    """Say that everything fits in one option only, as far as that is known of the others."""
    open_ = any(option.status is Status.UNKNOWN for option in options)
    so_far = " so far" if open_ else ""
    return f"{best.name} is recommended: it is the only option{so_far} in which everything fits."


def sentence(job: Job, fitting: list[Option], choice: Choice) -> str:
    """Name the reason, what it costs more than the cheapest, and what the best look would.

    `fitting` are all that the choice was made among, two or more.
    """
    best, cheapest, looks = choice.recommended, choice.cheapest, choice.looks
    least = _least(job, best, cheapest, looks)
    if best is cheapest and best is looks:
        second = min((one for one in fitting if one is not best), key=look_of)
        why = reason(best, second)
        parts = [f"{least.and_looks} ({why})" if why else least.and_looks]
    elif best is cheapest:
        parts = [f"it {least.does}"]
    else:
        more = least.more(*_dearer(best, cheapest), same=False)
        parts = [reason(best, cheapest), f"it {more} than {least.named}, {cheapest.name}"]
    if best is not looks:
        more = least.more(*_dearer(looks, best), same=_cost(looks) == _cost(best))
        parts.append(f"{looks.name} looks best ({reason(looks, best)}) and {more}")
    return f"{best.name} is recommended: {'; '.join(parts)}."


def _least(job: Job, *options: Option) -> CheapestWording:
    """Words of prices where all of these have one."""
    priced = all(option.cost is not None and option.cost.complete for option in options)
    return CheapestWording(job.head.currency if priced else None)


def _dearer(dear: Option, cheap: Option) -> tuple[Decimal, int]:
    """How much more one costs [money], and how many sheets more it takes [-]."""
    assert dear.cost is not None
    assert cheap.cost is not None
    return dear.cost.total - cheap.cost.total, dear.sheet_count - cheap.sheet_count
