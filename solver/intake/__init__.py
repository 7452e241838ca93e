"""Reading a job: defaults filled in, sizes taken from the place, and everything checked.

:func:`solver.intake.load.load` makes a job of what a job file says;
:func:`solver.intake.load.read_json` reads what this program wrote, and checks the jobs in it.
"""
