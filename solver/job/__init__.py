"""What is asked for: the tables of a job file as validated models, and the one table of defaults.

:class:`solver.job.job.Job` is a whole job. Each table of the job file is a model and each key a
field of it, with its unit in brackets below. Models are frozen and refuse keys that they do not
know. Lengths are whole ticks, masses whole grams (:mod:`solver.quantities` reads them).

| table of the job file | module |
|---|---|
| [job], [look], [shop], and the job as a whole | `job` |
| [[case]]; its trim, light and glass | `case`; `case_fittings` |
| [[item]], [[sheet]] and [[moulding]] | `inventory`, `materials` |
| [[doorway]]; measurements that cannot be | `doorway`; `doorway_checks` |
| [site]; what boards are made of | `site`; `boards` |
| [[hold]], [[have]] | `holds`, `have` |
| [finish] and [[hardware]]; [price] and price lists | `finish_and_overrides`; `price_terms` |
| defaults of all keys; minutes of all tasks | `defaults`; `labour_table` |

`defaults` is the one place for defaults, each with its source, and `labour_table` the one for
times. A model checks what it can see by itself; `Job` checks that whatever is named is in the job.
What follows from sizes and from the place is checked by :mod:`solver.intake`, which also fills in
the defaults: the models here know nothing of carcasses, doorways being judged, or solving.
"""
