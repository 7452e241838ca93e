"""Lines of lettering in columns, such as stand below a drawing."""

from __future__ import annotations

from collections.abc import Sequence

from cli.drawings.fonts import text_width
from cli.drawings.keys import wrapped
from cli.drawings.primitives import SMALL, Text
from cli.drawings.scene import Scene

ROW = 1.7 * SMALL
"""Height of a row [mm] on paper."""
APART = 6.0
"""Between two columns [mm] on paper."""


def listing(rows: Sequence[str], width: float, scale: int) -> Scene:
    """Return rows of lettering in as many columns as `width` [mm] on paper takes.

    They are read down the columns. A row wider than all of it goes on in the next.
    """
    lines = [line for row in rows for line in wrapped(row, width)]
    wide = max((text_width(line, SMALL) for line in lines), default=0.0)
    columns = max(1, int((width + APART) // (wide + APART)))
    deep = max(1, -(-len(lines) // columns))
    texts = tuple(
        Text((at // deep * (wide + APART) * scale, -(at % deep) * ROW * scale), line)
        for at, line in enumerate(lines)
    )
    return Scene("list", "List of", scale, texts, to_scale=False)
