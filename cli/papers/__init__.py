"""What the client signs and the shop holds: papers made from one option of a plan.

Each paper is one module with one pure function, `Issue` to `Paper`: blocks of text, tables and
pictures (:mod:`cli.papers.paper_blocks`) that the one template `papers.typ` sets. Words and figures
are those of `cli/tables`, so that paper and screen say the same.
"""
