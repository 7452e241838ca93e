"""One file a command: its options, one pipeline or one solver function, and how it is shown.

The function of a module's own name is the command. Its docstring is the help: a first sentence
that stands alone in `casewright --help`, what else is to be known, and after `Example:` command
lines that are shown as they stand. Options that several commands share are in `options`.
"""
