"""What is taken where a job says nothing of its site, its finish or its price; made once a unit."""

from __future__ import annotations

from functools import cache

from solver.filling import finish_defaults, price_defaults, site_defaults
from solver.hardware_order import Finish
from solver.site import Site
from solver.terms import Terms
from solver.units import Unit


@cache
def site_of(unit: Unit) -> Site:
    """The site of the defaults."""
    return Site.model_validate(site_defaults(unit))


@cache
def finish_of(unit: Unit) -> Finish:
    """The finish of the defaults."""
    return Finish.model_validate(finish_defaults(unit))


@cache
def terms_of(unit: Unit) -> Terms:
    """The price terms of the defaults."""
    return Terms.model_validate(price_defaults(unit))
