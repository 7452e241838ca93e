"""From the words of a command line to an answer that is checked, shown, written and kept.

`pipeline` is the one way for every command that decides something; `plan_pipeline` is that way
for plans. `plan_request` and `cut_request` read what is asked, `start_from_plan` names the plan
that is started from. `plan_of` finds the plan that a command shows: a saved one, the last one, or
a new one. `faults` lets Ctrl-C stop a search, and keeps the job where the program itself fails.
"""
