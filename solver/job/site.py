"""[site]: what strength, hinges and cautions need to know of the place and the people."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import Field, field_validator

from solver.job.inventory import Positive
from solver.quantities import Mass, Model

BoardName = Literal[
    "board of unknown core",
    "veneer-core plywood",
    "softwood plywood",
    "all-birch plywood",
    "osb",
    "mdf",
    "particleboard",
    "wood of unknown kind",
    "yellow birch",
    "paper birch",
    "sweet birch",
    "black cherry",
    "sugar maple",
    "northern red oak",
    "black walnut",
    "yellow-poplar",
    "eastern white pine",
    "ponderosa pine",
    "douglas-fir",
]
"""What boards and mouldings may be made of."""
Glass = Literal["none", "ordinary", "tempered", "laminated"]


COUNTRY = re.compile("[A-Z]{2}")
COUNTRIES = {
    **dict.fromkeys(("usa", "united states", "america"), "US"),
    **dict.fromkeys(
        ("uk", "united kingdom", "great britain", "england", "scotland", "wales"), "GB"
    ),
    "canada": "CA",
    "ireland": "IE",
    "australia": "AU",
    "new zealand": "NZ",
    "germany": "DE",
    "france": "FR",
    "netherlands": "NL",
}
"""What people write, and the letters that are meant."""


class Site(Model):
    """[site]. Keys without a value here have a default in ``casewright defaults``."""

    country: str | None = None
    """Whose rules are quoted, as two letters; left out, rules of the US as a yardstick only."""
    boards: dict[str, BoardName] = Field(default_factory=dict)
    """What a sheet's material or a moulding is made of, by its name in the job."""
    sag: Literal["industry", "display", "none"]
    """The limit that shelves are held to: L/144, or 0.02 in/ft and 1/32 in/ft, or none."""
    children: bool | None = None
    """Whether children come near it; left out, not known."""
    glass: Glass
    """Glass in doors, backs or shelves that are added to the case."""
    earthquakes: bool = False
    air: str | None = None
    """How air is provided where the old door let it through, and who has worked it out."""
    opens_inside: bool = False
    """Whether the case can be opened from behind without a key or a tool."""
    jamb: BoardName
    """The wood that the hinge screws bite: the stud where they reach it, else the jamb."""
    hinge_margin: Annotated[float, Field(ge=1, le=10)]
    """How many times the load the hinges are to be rated for [-]."""
    abuse_load: Annotated[Mass, Field(ge=0)]
    """Somebody hanging on the open latch edge [g]."""
    screw: Literal["#8", "#10", "#12", "#14"]
    """Hinge screws."""
    screw_thread: Positive
    """Length of thread in the wood [tick]."""
    screws_per_leaf: Annotated[int, Field(ge=2, le=12)]
    stud_spacing: Positive
    """[tick]"""
    lifters: Annotated[int, Field(ge=1, le=8)]
    """People there to lift it into place."""

    @field_validator("country")
    @classmethod
    def _two_letters(cls, given: str | None) -> str | None:
        if given is None or COUNTRY.fullmatch(given):
            return given
        meant = COUNTRIES.get(given.strip().lower().replace(".", ""))
        if meant is None and COUNTRY.fullmatch(given.strip().upper()):
            meant = given.strip().upper()
        then = f"write {meant!r}" if meant else "write its letters, or leave it out"
        msg = f"{given!r} is no country in two capital letters, such as US, GB or DE; {then}"
        raise ValueError(msg)

    @field_validator("boards", mode="before")
    @classmethod
    def _plainly_named(cls, given: object) -> object:
        if not isinstance(given, dict):
            return given
        return {k: v.lower() if isinstance(v, str) else v for k, v in given.items()}
