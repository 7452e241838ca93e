"""Lists of parts and stock options as people write them."""

from __future__ import annotations

from decimal import Decimal

import pytest

from cli.files.parts_file import parse_parts
from cli.run.cut_request import read_stock
from solver.errors import InputError, ManyInputsError
from solver.units import inches, mm


def test_headers_in_any_order_case_and_wording_with_a_byte_order_mark_and_blank_lines() -> None:
    text = '\ufeffQty,Name,WIDTH,Len\n\n2,side,11-7/8",54\n , , , \n1,top,"11 7/8",30\n'
    rows = parse_parts(text, "p.csv", "in", mouldings=False)
    assert [(r.part, r.length, r.width) for r in rows] == [
        ("side", inches(54), inches("11-7/8")),
        ("top", inches(30), inches("11-7/8")),
    ]
    assert rows[0].names == ("side#1", "side#2")
    assert rows[1].names == ("top#1",)


def test_semicolons_decimal_commas_and_millimetres() -> None:
    text = "part;length;width;quantity;material;thickness;grain\nside;2000;396,5;1;MDF;25;any\n"
    (row,) = parse_parts(text, "p.csv", "mm", mouldings=False)
    assert (row.width, row.thickness, row.material, row.grain) == (
        mm("396.5"),
        mm(25),
        "MDF",
        "any",
    )


def test_a_part_that_is_listed_again_is_numbered_on() -> None:
    text = "part,length,width,quantity\nshelf,30,12,2\nshelf,28,12,1\n"
    rows = parse_parts(text, "p.csv", "in", mouldings=False)
    assert [name for row in rows for name in row.names] == ["shelf#1", "shelf#2", "shelf#3"]


def test_every_cell_that_cannot_be_read_is_reported_with_line_and_column() -> None:
    text = "part,length,width,quantity,grain\nside,x,12,1,length\n\n,30,0,1.5,across\n"
    with pytest.raises(ManyInputsError) as caught:
        parse_parts(text, "p.csv", "in", mouldings=False)
    places = [error.where for error in caught.value.errors]
    assert places == [
        "p.csv, line 2, column 2",
        "p.csv, line 4, column 1",
        "p.csv, line 4, column 3",
        "p.csv, line 4, column 4",
        "p.csv, line 4, column 5",
    ]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"),
        ("part,length,quantity\na,1,1\n", "width is missing"),
        ("part,length,width,quantity,colour\n", "'colour' is no column"),
        ("part,name,length,width,quantity\n", "part is there twice"),
        ("part,length,width,quantity\n", "no parts"),
        ("part,length,width,quantity\na,1,1,1,1\n", "5 cells, but 4 columns"),
        ("part,length,width,quantity\na,1,1,20000\nb,1,1,1\n", "more than 20000 pieces"),
    ],
)
def test_a_wrong_list_says_what_is_wrong(text: str, says: str) -> None:
    with pytest.raises(InputError, match=says):
        parse_parts(text, "p.csv", "in", mouldings=False)


def test_mouldings_have_mitres_and_no_width() -> None:
    text = "part,length,quantity,miters\nleg,82,2,1\nhead,36,1,\n"
    rows = parse_parts(text, "p.csv", "in", mouldings=True)
    assert [(row.part, row.mitres, row.width) for row in rows] == [("leg", 1, 0), ("head", 0, 0)]


def test_stock_with_price_and_number() -> None:
    texts = ["96x48", "96 x 48@65.00", "8' × 4'@$65*2"]
    plain, priced, limited = read_stock(texts, "--sheet", "in", sheets=True)
    assert (plain.length, plain.width, plain.price, plain.limit) == (
        inches(96),
        inches(48),
        None,
        None,
    )
    assert (priced.price, priced.limit) == (Decimal("65.00"), None)
    assert (limited.length, limited.price, limited.limit) == (inches(96), Decimal("65.00"), 2)


def test_all_wrong_stock_is_reported_at_once() -> None:
    texts = ["96", "96x0", "96x48@x", "96x48@1.005", "96x48*0", "96x48@"]
    with pytest.raises(ManyInputsError) as caught:
        read_stock(texts, "--sheet", "in", sheets=True)
    assert [error.where for error in caught.value.errors] == [f"--sheet {text}" for text in texts]
