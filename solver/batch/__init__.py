"""Several jobs that buy together: each planned by itself, then all stock cut together.

`plan_batch.plan_batch` is the entry point. All jobs must have the same kerf, edge trim, margin,
stages, first cut, saws and currency (`plan_batch.agreed`). Shelf counts are those recommended to
each client; bounds hold for these.

*Open sizes* of all jobs are chosen together, at the least price and then nearest to the wishes
(`batch_sizes`). The branch and bound over sizes of :mod:`solver.sizing` runs over the axes of all
jobs, one after another. It is exact for the same reasons: what fits in a job depends on its own
sizes only, and the parts of all jobs, larger, never cost less together. It has a share of the time.
A price found is proven where it meets the bound of the least sizes, which one or two cuttings of
all parts show. Where the nearest sizes are not proven, the distance left open is stated.

*Pools* (`shared_stock`): parts of one material are cut together where thickness, grain, sizes and
prices agree; otherwise a note says why not.

*Cutting* (`joint_cutting`): each pool is cut together, never dearer than each job by itself.

*Result* (`built_jobs`, `batch_result`): the jobs whose sizes moved are laid out again. The price of
each pool is shared by area of parts, or by length of moulding.
"""
