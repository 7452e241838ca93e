"""Lists of things as people write them: cells or plain lines in, items and how each was read out.

Text and cells only, no files. Entry points: :func:`solver.listing.read.read_listing`
and :func:`solver.listing.read.read_rows`.
"""
