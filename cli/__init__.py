"""The command line: files in, tables and files out.

`main` is the app and turns each class of error into an exit code; `command_table` lists the
commands, each loaded when it is called, so that `--help` answers at once. A command reads what is
asked (`files`, `run`), has the solver decide, and shows and writes the answer (`screen`,
`drawings`, `papers`, `page`). What these show is a function of the plan alone.
"""
