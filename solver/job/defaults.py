"""Every default of the job file: its value in an inch and in a metric job, and where it comes from.

This table is the one place for defaults. ``casewright defaults`` prints it and
:mod:`solver.intake.load` fills a job from it.
"""

from __future__ import annotations

from typing import Any

from solver.job.defaults_trim_finish import CP, FINISH_DEFAULTS, TRIM_DEFAULTS, Default
from solver.units import Unit

__all__ = ["CP", "DEFAULTS", "Default", "table_defaults"]

DEFAULTS: tuple[Default, ...] = (
    Default("job", "title", "display case", "display case", "title of the job", CP),
    Default("job", "currency", "USD", "EUR", "currency of all prices", CP),
    Default(
        "job",
        "marking_step",
        "1/16",
        "1",
        "shelf marks fall on whole steps",
        "drawings at 1/16 in.: woodweb.com Drawing Units and Precision; 1 mm: " + CP,
    ),
    Default(
        "job",
        "house_built",
        "unknown",
        "unknown",
        "year; before 1978 old paint is treated as lead",
        "40 CFR 745 subpart E",
    ),
    Default("doorway", "opens_to", 90, 90, "how far a hung case must open, in degrees", CP),
    Default(
        "doorway",
        "hinge_gap",
        "1/8",
        "3",
        "hung: case to hinge jamb",
        "3/32 in. each side: Building Trades Pocketbook, Doors (chestofbooks.com); 2-4 mm usual",
    ),
    Default(
        "doorway",
        "head_gap",
        "1/8",
        "3",
        "hung: case to head",
        "1/8 in. at the head: jlconline.com Hanging a New Door in an Old Jamb",
    ),
    Default(
        "doorway",
        "floor_gap",
        "1/2",
        "12",
        "hung: over the highest floor in the swing",
        "1/2 in. over a finished floor: greenyplace.com; 6-12 mm: studiomatrx.org",
    ),
    Default(
        "doorway",
        "running_clearance",
        "1/8",
        "3",
        "hung: kept at the latch jamb by a passing corner",
        CP,
    ),
    Default(
        "doorway",
        "scribe",
        "3/4",
        "20",
        "built-in: kept free at each side for the scribed strip",
        "fitting strip 3/4 in. thick; scribes at most 1-1/2 in.: Architectural Woodwork Standards",
    ),
    Default("case", "name", "case", "case", "name of the case", CP),
    Default(
        "case",
        "shelves",
        {"least": 2, "most": 6},
        {"least": 2, "most": 6},
        "boards between the lowest board and the top",
        CP,
    ),
    Default("case", "kind", "standing", "standing", "hung, standing, built-in or wall", CP),
    Default("case", "sizes", "outside", "outside", "what width, height and depth measure", CP),
    Default("case", "uprights", 0, 0, "boards between bays", CP),
    Default("case", "above_floor", "0", "0", "bottom end of the sides above the floor", CP),
    Default("case", "raised_bottom", "0", "0", "height of the toe; 0 is none", CP),
    Default(
        "case",
        "fixing",
        "fixed",
        "fixed",
        "fixed shelves, or pins",
        "fixed shelves stiffen the case: issuhub.com 5674 p. 25",
    ),
    Default(
        "case",
        "pin_pitch",
        "32 mm",
        "32",
        "pitch of the pin holes",
        "32 mm system: davelers.com/32mm/4988.html",
    ),
    Default(
        "case",
        "first_hole",
        "96 mm",
        "96",
        "underside of a shelf on the lowest pins, from the bottom end",
        CP,
    ),
    Default(
        "case",
        "pin_clearance",
        "1/16",
        "2",
        "shelf on pins shorter than its opening",
        "748 mm shelves in 750 mm: paperzz.com 7843242 Bookshelf",
    ),
    Default("case", "joint", "butt", "butt", "butt (glued and screwed) or dado", CP),
    Default(
        "case",
        "dado",
        "3/8",
        "9",
        "depth of a dado; less where shelves on both sides of an upright would leave under a third",
        "3/8 in. in 3/4: issuhub.com 12912 p. 33",
    ),
    Default(
        "case",
        "back_inset",
        "1/8",
        "3",
        "planted back smaller than the outside",
        "1/8 to 1/4 in. each way: " + CP,
    ),
    Default(
        "case",
        "matched",
        False,
        False,
        "all its shelves from one sheet in sequence, where that costs nothing",
        "figure that runs on from shelf to shelf: " + CP,
    ),
    Default(
        "look",
        "headroom",
        "1",
        "25",
        "least room above each thing",
        "tallest + 1 to 2 in.: woodworkingadvisor.com bookshelf height between shelves",
    ),
    Default("look", "lift", "1/2", "12", "room to lift a thing over a lip", CP),
    Default("look", "gap", "1/2", "12", "least gap between two things", "1/2 to 1 in.: " + CP),
    Default("look", "end_margin", "1/2", "12", "least gap at each end of a shelf", CP),
    Default("look", "front_margin", "0", "0", "least room in front of a thing", CP),
    Default(
        "look",
        "rhythm",
        "steady",
        "steady",
        "steady, even, graduated, symmetric or to-fit; even where every case stands on pins",
        "drawers that fall by one step: Walker, Popular Woodworking 176 (2009)",
    ),
    Default(
        "look", "tallest", "low", "low", "where the tallest opening is wished: low, top, any", CP
    ),
    Default("look", "shelf_style", "mirrored", "mirrored", "mirrored, or grouped: kinds whole", CP),
    Default(
        "look",
        "clear_least",
        "4",
        "100",
        "least clear height of an opening",
        "3 to 4 in. to look down into: " + CP,
    ),
    Default(
        "look",
        "eye_level",
        "60",
        "1525",
        "eye level above the floor",
        "gallery centre line 57 to 60 in.: " + CP,
    ),
    Default("look", "spare", 0, 0, "share of each shelf's run kept free for more", CP),
    Default("look", "guess_allowance", "1/4", "6", "added to each guessed size", CP),
    Default(
        "look", "price_slack", 10, 10, "per cent over the cheapest that a better look may cost", CP
    ),
    Default("look", "prefer", "price", "price", "price or look first", CP),
    Default(
        "look",
        "share_lines",
        True,
        True,
        "bays, and cases named as beside each other, share shelf lines",
        "align shelves with neighbours: thisoldhouse.com step 1080823",
    ),
    Default(
        "shop",
        "kerf",
        "1/8",
        "3",
        "width of a saw cut",
        "full-kerf blade 1/8 in. (3.2 mm): saw.coach 3245",
    ),
    Default(
        "shop",
        "edge_trim",
        "1/4",
        "6",
        "cut off each factory edge",
        "1/8 to 1/4 in. per edge: from memory",
    ),
    Default("shop", "margin", "1/32", "1", "slack kept in each strip and each piece", CP),
    Default("shop", "cutting_step", "1/16", "1", "open sizes move on whole steps", CP),
    Default("shop", "first_cut", "either", "either", "rip, crosscut or either", CP),
    Default("shop", "stages", "any", "any", "2, 3 or any number of cutting stages", CP),
    Default("shop", "trimming", True, True, "two stages and one more cut to width", CP),
    Default(
        "shop",
        "saws",
        ("guided saw", "table saw", "mitre saw"),
        ("guided saw", "table saw", "mitre saw"),
        "saws there are; panel saw: the yard's",
        CP,
    ),
    Default("shop", "place", "shop", "shop", "shop or site", CP),
    Default("shop", "mitre_capacity", "12", "305", "widest board that the mitre saw crosscuts", CP),
    Default("shop", "sled_capacity", "24", "610", "longest cut on the table saw's sled", CP),
    Default("shop", "least_rip", "1", "25", "least width kept between rip fence and blade", CP),
    Default("shop", "least_length", "12", "300", "least length run along the fence or held", CP),
    Default(
        "shop",
        "least_offcut",
        ("24", "3"),
        ("600", "75"),
        "least length and width of a leftover worth keeping",
        "strips of 3 x 24 in. and over are kept: " + CP,
    ),
    Default(
        "site",
        "sag",
        "industry",
        "industry",
        "limit that shelves are held to: industry (L/144), display or none",
        "Architectural Woodwork Standards 1st ed., section 10, 1.2.21.3.1.1",
    ),
    Default("site", "glass", "none", "none", "none, ordinary, tempered or laminated", CP),
    Default(
        "site",
        "jamb",
        "eastern white pine",
        "eastern white pine",
        "wood that the hinge screws bite",
        "the softest species listed, for the safe side: Wood Handbook Table 5-3b",
    ),
    Default("site", "hinge_margin", 2, 2, "hinges are rated for so many times the load", CP),
    Default(
        "site",
        "abuse_load",
        "60 lb",
        "27.2 kg",
        "somebody hanging on the open latch edge",
        "load on an open edge in ASTM F2057-23, as quoted in 88 FR 28408",
    ),
    Default("site", "screw", "#10", "#10", "hinge screws", CP),
    Default(
        "site",
        "screw_thread",
        "1",
        "25",
        "thread of a hinge screw in the wood",
        "2 to 3 in. screws through jamb and shim into the stud: " + CP,
    ),
    Default("site", "screws_per_leaf", 4, 4, "screws in each hinge leaf", CP),
    Default("site", "stud_spacing", "16", "400", "studs of the wall", CP),
    Default("site", "lifters", 2, 2, "people there to lift it", CP),
    *TRIM_DEFAULTS,
    *FINISH_DEFAULTS,
    Default("price", "overhead", 10, 10, "per cent on materials and labour", CP),
    Default("price", "profit", 0, 0, "per cent on materials, labour and overhead", CP),
    Default("price", "contingency", 5, 5, "per cent on materials and labour", CP),
    Default("price", "tax_on", "everything", "everything", "everything or materials", CP),
    Default(
        "price",
        "stages",
        ({"when": "at signing", "share": 50}, {"when": "at delivery", "share": 50}),
        ({"when": "at signing", "share": 50}, {"when": "at delivery", "share": 50}),
        "payments and their shares, per cent",
        "half at signing, half at delivery: a furniture maker's blog, lumberjocks.com",
    ),
    Default("price", "hours_a_day", 7, 7, "working hours a day", CP),
    Default("price", "valid_days", 30, 30, "how long the price holds", "30 days: " + CP),
)
"""All defaults, in the order of the job file."""

RHYTHM_ON_PINS = "even"
"""The rhythm where it is not given and every case stands on pins: the client will move them
(common practice, no source)."""
SHELF_LOAD_POUNDS_PER_SQUARE_FOOT = 40
"""Load that a display shelf is to carry. Architectural Woodwork Standards, 1st ed.
(2009), section 10, 1.2.21.2.2: "all other shelving" [lb/ft2]."""
SHELF_LOAD_MOST_POUNDS = 200
"""Most load on any one shelf. Same standard, 1.2.21.2 [lb]."""


def table_defaults(table: str, unit: Unit) -> dict[str, Any]:
    """Return the defaults of one table of the job file as key: value."""
    return {d.key: d.value(unit) for d in DEFAULTS if d.table == table}
