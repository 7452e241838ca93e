"""Reading a job: defaults filled in, sizes taken from the place, and everything checked.

:func:`solver.intake.load.load` makes a job of what a job file says;
:func:`solver.intake.load.read_json` reads what this program wrote, and checks the jobs in it.

1. `load` fills in the defaults of :mod:`solver.job.defaults`; nothing that the user wrote is
   changed.
2. A case that names a doorway and leaves out width or height gets it from there (`place_fill`).
   The size is what was measured, less its deductions: gaps, the room that the swing needs at the
   most depth, the droop of the latch side, scribed strips (`sizes_from_place`).
3. The models of :mod:`solver.job` validate the tables.
4. `check_job` refuses what they cannot see: boards that leave no room, a case larger than its
   doorway, held decisions and pieces on hand that do not go with the job (`decision_checks`), and
   trim that cannot be made (`trim_checks`). Every refusal says both numbers and what would do.

`precheck` tells before solving which things cannot stand in any case.
"""
