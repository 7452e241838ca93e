"""What one default of the job file is, and the defaults of [case.trim], [case.light] and [finish].

:mod:`solver.job.defaults` has the table of all.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from solver.units import Unit

CP = "common practice, no source"
"""Source of a value that the trade uses and nobody has published."""


@dataclass(frozen=True)
class Default:
    """One default.

    Attributes
    ----------
    table, key
        Where it stands in the job file.
    inch, metric
        Its value in an inch job and in a metric job; a length is a text of
        digits in the job's unit, such as "1-1/2", and no other text is digits alone.
    meaning
        What it is, in the trade's words.
    source
        Published source, or "common practice, no source".
    """

    table: str
    key: str
    inch: Any
    metric: Any
    meaning: str
    source: str

    def value(self, unit: Unit) -> Any:
        """Return the value for a job in `unit`."""
        return self.inch if unit == "in" else self.metric


TRIM_DEFAULTS: tuple[Default, ...] = (
    Default("case.trim", "set", "none", "none", "casing: none, plain, classical or old", CP),
    Default("case.trim", "corners", "mitre", "mitre", "plain legs and head: mitre or butt", CP),
    Default(
        "case.trim",
        "reveal",
        "3/16",
        "5",
        "casing back from the edge that it frames",
        "3/16 to 1/4 in.: callchampionservices.com Door Casing Reveal",
    ),
    Default("case.trim", "overlap", "1/4", "6", "casing that hides a gap lies so far on it", CP),
    Default(
        "case.trim", "hide_gap", True, True, "casing at the latch of a hung case covers the gap", CP
    ),
    Default("case.trim", "bearing", "1/2", "12", "least width of casing on the wall", CP),
    Default(
        "case.trim",
        "joint_gap",
        "1/16",
        "2",
        "between trim that travels and trim that stays",
        "1/16 to 1/8 in.: woodweb.com Hidden-Pivot Bookcase Door",
    ),
    Default("case.trim", "larger", "1/4", "6", "plinths and corner blocks wider than casing", CP),
    Default(
        "case.trim",
        "thicker",
        "1/8",
        "3",
        "plinths and corner blocks thicker than casing",
        "about 1/8 in.: runtheyear2016.com 7642",
    ),
    Default("case.trim", "flutes", 0, 0, "flutes on each leg; an odd number is usual", CP),
    Default("case.trim", "flute_margin", "1/4", "6", "least flat at each edge of a fluted leg", CP),
    Default("case.trim", "flute_stop", "1-1/2", "40", "flutes end so far from each end", CP),
    Default("case.trim", "scribe_head", False, False, "a scribed strip over the case as well", CP),
    Default(
        "case.trim",
        "over",
        "1",
        "25",
        "trim is cut over-long, to be fitted",
        "casing rough-cut 1 in. long: " + CP + "; tape likewise: joewoodworker.com edgebanding",
    ),
    Default("case.light", "where", "shelves", "shelves", "shelves, top or sides", CP),
    Default(
        "case.light", "watts", 3, 9.6, "of the strip, a foot or a metre: the maker's figure", CP
    ),
    Default("case.light", "short", "1", "25", "strip shorter than its board", CP),
)
"""Defaults of [case.trim] and [case.light]."""

FINISH_DEFAULTS: tuple[Default, ...] = (
    Default("finish", "kind", "paint", "paint", "paint, clear or none", CP),
    Default(
        "finish",
        "primer",
        1,
        1,
        "coats of primer under paint",
        "one primer and two top: engineerfix.com How Much Paint Do You Need for Cabinets",
    ),
    Default(
        "finish",
        "coats",
        2,
        2,
        "coats of paint, or of clear finish",
        "one primer and two top: engineerfix.com How Much Paint Do You Need for Cabinets",
    ),
    Default(
        "finish",
        "primer_coverage",
        200,
        5,
        "ft2 a gallon, or m2 a litre",
        "200 to 300 ft2 a gallon: engineerfix.com How Much Paint Do You Need for Cabinets",
    ),
    Default(
        "finish",
        "coverage",
        350,
        8.5,
        "of the topcoat; ft2 a gallon, or m2 a litre",
        "350 to 400 ft2 a gallon: engineerfix.com How Much Paint Do You Need for Cabinets",
    ),
    Default(
        "finish",
        "more",
        0.15,
        0.15,
        "share bought over what the area takes",
        "10 to 15 %: engineerfix.com How Much Paint Do You Need for Cabinets",
    ),
)
"""Defaults of [finish]."""
