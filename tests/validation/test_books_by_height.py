"""Least case height for books sorted by height, against a shortest path.

The compact book storage problem: A. Ravindran, "On compact book storage in libraries",
Opsearch 8 (1971); S. K. Gupta and A. Ravindran, "Optimal storage of books by size", Journal of
the American Society for Information Science 25 (1974); as a shortest path also in R. K. Ahuja,
T. L. Magnanti and J. B. Orlin, Network Flows (1993), applications of shortest paths.

Books sorted by height are cut into runs, a run a shelf. With all books of one thickness some
best layout keeps the order, so the shortest path over cut points with n arcs is the least sum
of n shelf heights. Node i stands before book i; an arc i -> j puts books i .. j-1 on one shelf,
if they are not too wide together, and costs its tallest and the headroom; an arc i -> i leaves
a shelf empty at the least clear height.
"""

from __future__ import annotations

import networkx
import pytest

from solver.job.job import Job
from solver.planning.plan_job import plan_job
from tests.builders import make_job

Books = dict[int, int]
"""How many books there are of each height in mm; all are 40 mm thick."""

THICK = 40
BOARD = 18
WIDTH = 300
"""Clear width of the case in mm: seven books stand on a shelf (7 x 40 = 280)."""
HEADROOM = 25
CLEAR_LEAST = 120

BOOKS: list[tuple[Books, int]] = [
    ({180: 6, 200: 4, 240: 5, 310: 3}, 3),
    ({180: 6, 200: 4, 240: 5, 310: 3}, 4),
    ({170: 7, 171: 7, 330: 1}, 3),
    ({150: 2, 260: 5, 261: 3, 400: 2}, 2),
    ({198: 9, 234: 11, 297: 5}, 4),
    ({198: 9, 234: 11, 297: 5}, 5),
]


def least_by_shortest_path(books: Books, shelves: int) -> int | None:
    """Least sum of the heights of `shelves` openings [mm]; None where they do not hold all."""
    heights = sorted((h for h, n in books.items() for _ in range(n)), reverse=True)
    graph = networkx.DiGraph()
    for used in range(shelves):
        graph.add_edge((used, len(heights)), (used + 1, len(heights)), weight=CLEAR_LEAST)
        for i, tallest in enumerate(heights):
            graph.add_edge((used, i), (used + 1, i), weight=CLEAR_LEAST)
            for j in range(i + 1, min(len(heights), i + WIDTH // THICK) + 1):
                graph.add_edge((used, i), (used + 1, j), weight=tallest + HEADROOM)
    end = (shelves, len(heights))
    if not networkx.has_path(graph, (0, 0), end):
        return None
    return int(networkx.shortest_path_length(graph, (0, 0), end, weight="weight"))


def bookcase(books: Books, openings: int, inside: int) -> Job:
    """A case of `inside` mm clear height, boards not counted, with `openings` openings."""
    boards = (openings + 1) * BOARD
    sheet = {"name": "ply", "material": "ply", "length": 2440, "width": 1220, "thickness": BOARD}
    case = {
        "width": WIDTH + 2 * BOARD,
        "height": inside + boards,
        "depth": 200,
        "shelves": openings - 1,
        "back": "none",
    }
    items = [
        {"name": f"books of {height}", "width": THICK, "height": height, "depth": 150,
         "count": count, "weight": "300 g", "gap": 0}
        for height, count in books.items()
    ]  # fmt: skip
    look = {"headroom": HEADROOM, "gap": 0, "end_margin": 0, "clear_least": CLEAR_LEAST}
    return make_job(unit="mm", case=case, items=items, look=look, sheet=[sheet])


def fits_all(job: Job) -> bool:
    (option,) = plan_job(job).options
    stage = {stage.name: stage for stage in option.stages}["fit"]
    assert stage.proven
    return option.fits_all


@pytest.mark.parametrize(("books", "openings"), BOOKS)
def test_least_case_height_is_the_shortest_path(books: Books, openings: int) -> None:
    least = least_by_shortest_path(books, openings)
    assert least is not None
    assert fits_all(bookcase(books, openings, least))
    assert not fits_all(bookcase(books, openings, least - 1))


def test_too_few_shelves_for_the_books_hold_not_all_at_any_height() -> None:
    # 18 books of 40 mm need 720 mm of run; two shelves have 2 x 7 x 40 = 560.
    books = BOOKS[0][0]
    assert least_by_shortest_path(books, 2) is None
    assert not fits_all(bookcase(books, 2, 2000))


def test_sorting_by_height_beats_equal_openings() -> None:
    """The point of the papers: shelves of several heights store more than equal ones."""
    books, openings = BOOKS[0]
    least = least_by_shortest_path(books, openings)
    assert least is not None
    assert least < openings * (max(books) + HEADROOM)


def test_the_fixed_instance_by_hand() -> None:
    # 18 books, seven a shelf, three shelves: [310 x 3, 240 x 4], [240, 200 x 4, 180 x 2],
    # [180 x 4], or better [310 x 3] alone would leave 15 books for 14 places. So 310 + 240 + 180.
    assert least_by_shortest_path(*BOOKS[0]) == 310 + 240 + 180 + 3 * HEADROOM
