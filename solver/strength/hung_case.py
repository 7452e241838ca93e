"""The figures of a case hung in a doorway: pull, screws, rating, droop, abuse, racking."""

from __future__ import annotations

from dataclasses import dataclass

from solver.job.boards import BOARDS
from solver.job.case import Case
from solver.job.doorway import Doorway
from solver.job.job import Job
from solver.plan.built import CasePlan
from solver.plan.hanging import Figure, HingePlace
from solver.strength import fasteners, hinges, stability
from solver.strength.constants import MM_PER_INCH, NEWTONS_PER_POUND, millimetres, newtons
from solver.strength.fasteners import SPACING
from solver.strength.figures import figure, shown
from solver.strength.hinges import spread
from solver.strength.weights import Mass, combined_mass
from solver.units import TICKS_PER_INCH, TICKS_PER_MM, Ticks, Unit, with_unit

STATICS = "statics: OpenStax University Physics vol. 1, Example 12.6"
NO_PIN_GAP = MM_PER_INCH / 8
"""Pin line to case where no doorway gives it: 1/8 in, common practice [mm]."""
ABUSE_FACTOR = 2.0
"""Ultimate load over the load of abuse that is asked for: common practice, no source [-]."""


@dataclass(frozen=True)
class HungCase:
    """A hung case with what its figures need; lengths [mm]."""

    job: Job
    case: Case
    planned: CasePlan
    doorway: Doorway | None
    empty: Mass
    loaded: Mass
    places: tuple[HingePlace, ...]

    @property
    def spread(self) -> float:
        """Top to bottom hinge [mm]."""
        return millimetres(spread(self.places))

    @property
    def width(self) -> float:
        """Outside width [mm]."""
        return millimetres(self.planned.outside.width)

    @property
    def height(self) -> float:
        """Outside height [mm]."""
        return millimetres(self.planned.outside.height)

    def across(self, x: float) -> float:
        """Distance along the case from the pins of a point x from the left [mm]."""
        right = self.doorway is not None and self.doorway.hinge_side == "right"
        from_hinge = self.width - x if right else x
        if self.doorway is None:
            return from_hinge + NO_PIN_GAP
        pin = self.doorway.pin
        if pin.inside is not None:
            return abs(from_hinge - millimetres(pin.inside))
        aside = self.doorway.hinge_gap if pin.aside is None else pin.aside
        return from_hinge + millimetres(aside)

    def back(self, z: float) -> float:
        """Distance square to the case from the pins of a point z from the front [mm]."""
        inward = self.doorway is not None and self.doorway.swing == "in"
        led = millimetres(self.planned.outside.depth) - z if inward else z
        if self.doorway is None:
            return led
        return abs(led + millimetres(self.doorway.pin.proud - self.doorway.pin.behind))

    def arm(self, mass: Mass) -> float:
        """Plan distance of a centre of gravity from the pins [mm]."""
        return hinges.plan_arm(self.across(mass.x), self.back(mass.z))

    @property
    def back_thickness(self) -> float:
        """Thickness of the back, 0 without one [mm]."""
        named = self.case.back
        return 0.0 if named == "none" else millimetres(self.job.thickness(named))

    @property
    def latch(self) -> float:
        """Distance of the latch edge from the pins [mm]."""
        right = self.doorway is not None and self.doorway.hinge_side == "right"
        return self.across(0.0 if right else self.width)


def hung_figures(hung: HungCase) -> list[Figure]:
    """Return the figures of a hung case in the order in which they are read."""
    return [
        *_pulls(hung),
        *_at_the_screws(hung),
        _rating(hung),
        *_abuse(hung),
        *_droop(hung),
    ]


def _pulls(hung: HungCase) -> list[Figure]:
    pulls = []
    for key, what, mass in (
        ("pull-empty", "pull on the top hinge, empty", hung.empty),
        ("pull-loaded", "pull on the top hinge, loaded", hung.loaded),
        ("pull-full", "pull on the top hinge, every shelf at its load limit", _full(hung)),
    ):
        arm = hung.arm(mass)
        pull = hinges.pull(mass.weight, arm, hung.spread)
        numbers = f"{shown(W_N=mass.weight, a_mm=arm, s_mm=hung.spread)}: {pull:.0f} N"
        formula = "H = W a / s, a the plan distance of the centre of gravity from the pins"
        assumes = "top and bottom hinge take all of it; plumb pins; the bottom hinge is pushed in"
        pulls.append(
            figure(key, what, ("force", pull), (formula, numbers), STATICS, assumes=assumes)
        )
    return pulls


def _full(hung: HungCase) -> Mass:
    """The case with every shelf at its load limit, spread evenly."""
    size = hung.planned.bays[0].inside
    grams = sum(opening.load_limit for bay in hung.planned.bays for opening in bay.openings)
    filled = Mass(grams / 1000, hung.width / 2, millimetres(size.depth) / 2, hung.height / 2)
    return combined_mass([hung.empty, filled])


def _loaded_pull(hung: HungCase) -> float:
    return hinges.pull(hung.loaded.weight, hung.arm(hung.loaded), hung.spread)


def _screw(hung: HungCase) -> tuple[float, float, float]:
    """(gravity, shank [in], thread [in]) of the hinge screws in the jamb."""
    ground = hung.job.ground
    gravity = BOARDS[ground.jamb].gravity or BOARDS["eastern white pine"].gravity or 0.35
    shank = fasteners.SCREWS[ground.screw].shank
    return gravity, shank, millimetres(ground.screw_thread) / MM_PER_INCH


def _at_the_screws(hung: HungCase) -> list[Figure]:
    ground, (gravity, shank, thread) = hung.job.ground, _screw(hung)
    each = _loaded_pull(hung) / ground.screws_per_leaf
    allowed = fasteners.withdrawal_allowable(gravity, shank, thread) * NEWTONS_PER_POUND
    down = hung.loaded.weight / len(hung.places) / ground.screws_per_leaf
    sideways = fasteners.lateral_allowable(gravity, shank) * NEWTONS_PER_POUND
    bite = f"G {gravity} ({ground.jamb}), D {shank} in, L {thread:.2f} in: {allowed:.0f} N allowed"
    longer = "more or longer screws, into the stud; or more hinges, further apart"
    return [
        figure(
            "screw-out",
            "pull on each screw of the top hinge, loaded",
            ("force", each),
            ("H / screws in a leaf; allowed 2850 G2 D L", f"{each:.0f} N; {bite}"),
            "NDS ch. 12 as quoted; side grain, not the edge of plywood",
            assumes="all screws of the leaf share alike; thread in solid wood as said",
            judged=(each <= allowed, longer),
        ),
        figure(
            "screw-down",
            "weight on each hinge screw, loaded",
            ("force", down),
            ("W / hinges / screws in a leaf; rough limit C D2", f"{down:.0f} N; {sideways:.0f} N"),
            "pre-1991 design values, superseded: a rough check only",
            assumes="all hinges share the weight alike, which shimming must bring about",
            judged=(down <= sideways, longer),
        ),
    ]


def _rating(hung: HungCase) -> Figure:
    margin, arm = hung.job.ground.hinge_margin, hung.arm(hung.loaded)
    rated = hinges.rated_weight(hung.loaded.weight, arm, hung.spread, margin)
    reference = hinges.EN_1935_ARM / hinges.EN_1935_SPREAD
    share = arm / hung.spread
    return figure(
        "rating",
        "load rating to ask for, the set of hinges together",
        ("force", rated),
        (
            "margin x W x max(1, (a / s) / (500 / 1540))",
            f"{margin:g} x {hung.loaded.weight:.0f} N x max(1, {share:.3f} / {reference:.3f})",
        ),
        "door of EN 1935, as quoted by techgoggler.com; margin: the job's",
        assumes="a rating is for a door of ordinary shape; by rating, never by a door-size table",
    )


def _abuse(hung: HungCase) -> list[Figure]:
    load = newtons(hung.job.ground.abuse_load)
    if not load:
        return []
    pull = hinges.pull_with(
        hung.loaded.weight, hung.arm(hung.loaded), hung.spread, (load, hung.latch)
    )
    each = pull / hung.job.ground.screws_per_leaf
    ultimate = fasteners.withdrawal_ultimate(*_screw(hung)) * NEWTONS_PER_POUND
    return [
        figure(
            "abuse",
            "pull on the top hinge with somebody hanging on the open latch edge",
            ("force", pull),
            (
                "H = (W a + P r) / s; each screw against half of 15,700 G2 D L",
                f"{shown(P_N=load, r_mm=hung.latch)}: {pull:.0f} N, each screw {each:.0f} N of "
                f"{ultimate / ABUSE_FACTOR:.0f} N",
            ),
            "statics; Wood Handbook Eq. 8-10b as quoted; size of P: the job's",
            assumes="one short time; both loads pull the same way",
            judged=(
                each * ABUSE_FACTOR <= ultimate,
                "longer screws, into the stud; and tell the client that nobody may hang on it",
            ),
        )
    ]


def _droop(hung: HungCase) -> list[Figure]:
    turned = hinges.droop(hinges.TOP_HINGE_GIVE, hung.width, hung.spread)
    back = hung.back_thickness
    sheared = (
        stability.panel_droop(
            hung.loaded.weight, (hung.width, hung.height, back), stability.PANEL_SHEAR
        )
        if back
        else 0.0
    )
    droop = turned + sheared
    under = millimetres(hung.doorway.floor_to_clear) if hung.doorway else 0.0
    left = millimetres(hung.planned.above_floor) - under - droop
    return [
        figure(
            "droop",
            "droop of the latch edge to allow for",
            ("length", droop),
            (
                "e w / s + W w / (2 G h t), e the give of the top hinge",
                f"{shown(e_mm=hinges.TOP_HINGE_GIVE, w_mm=hung.width, s_mm=hung.spread)}; "
                f"back {sheared:.2f} mm",
            ),
            "similar triangles; give 1/32 in: common practice; shear: elastic panel, G 85,000 psi",
            assumes="a back glued all round; hinges shimmed tight; slip of dry joints is more",
        ),
        figure(
            "foot",
            "clearance left under the latch foot, after droop",
            ("length", left),
            (
                "above floor - highest floor and pile in the swing - droop",
                f"{millimetres(hung.planned.above_floor):.1f} - {under:.1f} - {droop:.1f} mm",
            ),
            "arithmetic",
            assumes="the floor as measured; look again after a month",
            judged=(left > 0, "hang it higher, or trim the bottom"),
        ),
    ]


SOLD: dict[Unit, tuple[Ticks, Ticks, Ticks]] = {
    "in": (TICKS_PER_INCH // 4, TICKS_PER_INCH // 2, 30 * TICKS_PER_INCH),
    "mm": (6 * TICKS_PER_MM, 12 * TICKS_PER_MM, 760 * TICKS_PER_MM),
}
"""A thin and a thick back as they are sold, and the width over which the thick one is asked for
[tick]."""


def racking_figures(hung: HungCase) -> list[Figure]:
    """Return what the back must be, what holds it, and what the joints would bear without it."""
    unit, back = hung.job.unit, hung.back_thickness
    needed, weight = stability.back_needed(hung.width), hung.loaded.weight
    thin, thick, wide = (with_unit(length, unit) for length in SOLD[unit])
    sold = thick if hung.width > stability.WIDE_CASE else thin
    spacing = SPACING[unit]
    load = stability.fastener_load(stability.shear_flow(weight, hung.height), millimetres(spacing))
    boards = 2 + min(len(bay.shelves) for bay in hung.planned.bays)
    glued = f"at least {thin} glued and fastened all round and to every fixed shelf"
    return [
        figure(
            "back",
            f"least thickness of the back as measured, one sold as {sold}",
            ("length", needed),
            (f"about {thin}; about {thick} over {wide} of width", f"{back:.1f} mm there is"),
            "common practice: the back is the structure (diy.stackexchange 316150, woodweb.com)",
            assumes=glued,
            judged=(back >= needed, f"a thicker back: {glued}; {thick} over {wide} wide"),
        ),
        figure(
            "fastener",
            f"load on each fastener of the back, {with_unit(spacing, unit)} apart",
            ("force", load),
            ("W / h x spacing", shown(W_N=weight, h_mm=hung.height, e_mm=millimetres(spacing))),
            "statics: shear of a panel held at one side",
            assumes="without glue; the joints of the box take nothing",
        ),
        figure(
            "joint",
            "moment on each joint if there were no back",
            ("moment", stability.joint_moment(weight, hung.width, boards)),
            ("W w / (4 n)", shown(W_N=weight, w_mm=hung.width, n=boards)),
            "statics: a ladder of n boards between two sides",
            assumes="why a hung case needs a back: screws into end grain do not bear this",
        ),
    ]
