"""CP-SAT is loaded without pandas, and series of variables work all the same."""

from __future__ import annotations

import subprocess
import sys


def run(script: str) -> None:
    subprocess.run([sys.executable, "-c", script], check=True)


def test_the_planner_is_loaded_without_pandas() -> None:
    run("import sys, solver.planning.plan_job; sys.exit('pandas' in sys.modules)")


def test_series_of_variables_load_pandas_when_they_are_asked_for() -> None:
    run(
        "from solver.cp_sat import cp_model\n"
        "import pandas\n"
        "model = cp_model.CpModel()\n"
        "index = pandas.Index([1, 2])\n"
        "made = model.new_int_var_series('x', index, 0, pandas.Series([3, 4], index))\n"
        "assert isinstance(made, pandas.Series) and len(made) == 2\n"
    )


def test_pandas_that_is_there_already_is_taken() -> None:
    run("import pandas\nfrom solver.cp_sat import cp_model\nassert cp_model.pd is pandas\n")
