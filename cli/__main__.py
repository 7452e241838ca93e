"""`python -m cli`, for use in a checkout; installed, the command is `casewright`."""

from cli.main import run

run()
