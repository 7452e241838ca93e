"""Published lists of sticks whose fewest sticks are proven, found and proven again.

Lengths from the ESICUP collection (CC0), fewest sticks from the bounds published with BPPLib:
Falkenauer, J. of Heuristics 2 (1996); Schoenfield's Hard28 (2002); Waescher and Gau, OR Spektrum
18 (1996).
"""

from __future__ import annotations

import pytest

from solver.cutting.cutting_problem import StickPart, StickProblem, StickStock
from solver.outcome import Limits, Status
from solver.sticks.solve_sticks import solve_sticks
from tests.stick_checks import stick_faults

LISTS: dict[str, tuple[str, int, int]] = {
    "Falkenauer t60_00": (
        "495 474 473 472 466 450 445 444 439 430 419 414 410 395 372 370 366*3 363 361 "
        "357 355 351 350*2 347 320 315 307 303 299 298*2 292 288 287 283 275*2 274 273*2 "
        "272*2 271 269*2 268 263 262 261 259 258 255 254 252*3 251 ",
        1000,
        20,
    ),
    "Hard28 BPP766": (
        "800*2 798 788 758 755 754 752 747 742 734 731 726 722 717 716 704 699 698 695 "
        "682 671 670 669 668 667 650 645 644 643 634 630*2 621 617 610 588 585 574 569 "
        "548 544 541 537 519 516 506 501 498*2 496 495 489 483 473 469 464 460 458 449 "
        "443 440 437 436 430 427 424*2 423*2 419 411 410*2 408*2 402 401 388 378 374 373 "
        "372 370 367 365 358*2 355 345 341 339 338*2 324 320 316*2 305 302 291*2 283 275 "
        "268 266 262 249*2 247 245 236 234 232 231 230 228*2 220 216 205 201 197 194 193 "
        "190*2 187 175 166 164 141 138 135 123 121 116 111 101 99*2 87 86 77 75 73 70 "
        "66*2 62*2 54 53 51 47 43 40 27 17 12 ",
        1000,
        62,
    ),
    "Hard28 BPP119": (
        "697 695 693*2 690 687 686 685 683 682 681 680 676*2 674 673*2 671 670 668 665 "
        "648 644 640*2 635 627 625 624 620 618 616*2 611 609*3 608 603 602 598 588 579*2 "
        "577*3 572 565 564 563 559*2 544 543 542 541 530 527 523 521 515 509 508*2 507 "
        "499*3 498 491 483 470 464 460 459 455 453 446*2 444*2 436 433 430 429 428 425 "
        "422 418*2 413 409 406 404 402 401 400 399 398 385 382 381 379 371 364*2 354 353 "
        "342 336 335 331 329 323 322 315 314 311*2 309 308 307 303 296 287*2 284 275 274 "
        "273 272 269 266 265 262 250 248 246 244 240 239 234 226*2 225 217*2 207*2 205 "
        "194 193 190 189*2 187 185 181 177 174 173 172 170*2 161 159 155 154 151 140 138 "
        "133 132 114 113 111 109 101 99*2 97*2 94 92 90 80 77 69 68 67 64 62 51 39 36 21 "
        "17 14 2 ",
        1000,
        77,
    ),
    "Waescher-Gau TEST0022": (
        "4812*3 4783 4778 4769*2 4738 4199*2 4122*2 3959 3787 3534*3 3412*3 3326*2 3168*4 "
        "2649 2317*2 2156 2067*2 1912 1897 1762*3 1594 1574 1492*2 1308*2 1274*2 724 "
        "511*2 468 246*2 117*2 63*2 55 26 ",
        10000,
        15,
    ),
}
"""Lengths, the stick's length, and the fewest sticks. Of Hard28 BPP119 and Waescher-Gau TEST0022
the linear program, rounded up, says one less than any answer takes."""


def asked(text: str, whole: int) -> StickProblem:
    rows = [row.partition("*") for row in text.split()]
    lengths = [int(length) for length, _, count in rows for _ in range(int(count or 1))]
    pieces = tuple(StickPart(f"p{i}", length) for i, length in enumerate(lengths))
    return StickProblem(pieces, (StickStock("stick", whole, None),), kerf=0)


@pytest.mark.parametrize("name", LISTS)
def test_the_fewest_sticks_are_found_and_proven(name: str) -> None:
    text, whole, fewest = LISTS[name]
    problem = asked(text, whole)
    answer = solve_sticks(problem, Limits())

    assert stick_faults(problem, answer) == []
    assert (answer.count, answer.count_bound) == (fewest, fewest)
    assert answer.status is Status.OPTIMAL


@pytest.mark.parametrize("name", LISTS)
def test_a_kerf_is_as_good_as_pieces_and_sticks_that_much_longer(name: str) -> None:
    """n pieces and n - 1 kerfs fit a stick where n longer pieces fit the stick a kerf longer."""
    text, whole, fewest = LISTS[name]
    problem = asked(text, whole)
    kerf = min(piece.length for piece in problem.pieces) - 1
    pieces = tuple(StickPart(p.id, p.length - kerf) for p in problem.pieces)
    shorter = StickProblem(pieces, (StickStock("stick", whole - kerf, None),), kerf)
    answer = solve_sticks(shorter, Limits())

    assert stick_faults(shorter, answer) == []
    assert answer.count == fewest
