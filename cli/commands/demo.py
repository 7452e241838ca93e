"""`casewright demo`: a worked job that needs no file."""

from __future__ import annotations

from importlib.resources import as_file, files

from cli.options import Csv, Force, Json, Near, Quiet, Seed, ShowAll, TimeLimit, Xlsx


def demo(
    json: Json = None,
    csv: Csv = None,
    xlsx: Xlsx = None,
    force: Force = False,
    quiet: Quiet = False,
    every: ShowAll = False,
    near: Near = True,
    time_limit: TimeLimit = 60.0,
    seed: Seed = 1,
) -> None:
    """Plan the worked example, an alcove for clocks.

    Example: casewright demo --json demo.json
    """
    from cli.deliver import Wanted, deliver
    from cli.job_file import read_job
    from solver.outcome import Limits

    with as_file(files("cli") / "demo" / "clock-alcove.toml") as path:
        job = read_job(str(path))
    wanted = Wanted(json=json, csv=csv, xlsx=xlsx, force=force, quiet=quiet, every=every, near=near)
    deliver(job, Limits(seed=seed, seconds=time_limit), wanted)
