"""``python -m tests.benchmark``: the layout benchmark; others by name: ``cutting``, ``joint`` …"""

from __future__ import annotations

import sys

if __name__ == "__main__":
    if sys.argv[1:2] == ["cutting"]:
        from tests.benchmark import cutting

        sys.argv = [f"{sys.argv[0]} cutting", *sys.argv[2:]]
        cutting.main()
    elif sys.argv[1:2] == ["batch"]:
        from tests.benchmark import batch

        batch.main(sys.argv[2:])
    elif sys.argv[1:2] == ["checker"]:
        from tests.benchmark import checker

        checker.main_checker()
    elif sys.argv[1:2] == ["brute"]:
        from tests.benchmark import checker

        checker.main_brute(sys.argv[2:])
    elif sys.argv[1:2] == ["eye-brute"]:
        from tests.benchmark import eye_brute

        eye_brute.main(sys.argv[2:])
    elif sys.argv[1:2] == ["load"]:
        from tests.benchmark import load

        load.main(sys.argv[2:])
    elif sys.argv[1:2] == ["reasons"]:
        from tests.benchmark import reasons

        reasons.main(sys.argv[2:])
    elif sys.argv[1:2] == ["joint"]:
        from tests.benchmark import joint

        joint.main(sys.argv[2:])
    elif sys.argv[1:2] == ["eye"]:
        from tests.benchmark import eye

        eye.main(sys.argv[2:])
    else:
        from tests.benchmark.layout import main

        main(sys.argv[1:])
