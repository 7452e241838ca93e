"""What the client signs and the shop holds: papers made from one option of a plan.

A paper is one pure function from an `Issue` (the option with its date, revision and prices) to a
`Paper`: blocks of text, tables and pictures (:mod:`cli.papers.paper_blocks`) that the one template
`papers.typ` sets. Words and figures are those of `cli/screen`, so that paper and screen say the
same. A new paper is its function, and a line in `write.MAKERS`.
"""
