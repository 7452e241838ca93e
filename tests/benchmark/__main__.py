"""``python -m tests.benchmark``: the layout benchmark; ``... cutting`` runs the one on cutting."""

from __future__ import annotations

import sys

if __name__ == "__main__":
    if sys.argv[1:2] == ["cutting"]:
        from tests.benchmark import cutting

        sys.argv = [f"{sys.argv[0]} cutting", *sys.argv[2:]]
        cutting.main()
    else:
        from tests.benchmark.layout import main

        main(sys.argv[1:])
