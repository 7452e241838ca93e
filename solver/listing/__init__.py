"""Lists of things as people write them: text or cells in, items and how each line was read out.

No files are read here. Entry points: :func:`solver.listing.read.read_listing` for text and
:func:`solver.listing.read.read_rows` for cells; `item_frames` takes a pandas table.

A text is split into lines, and from its first header on into rows of cells (`plain_lines`). A
header is a row that names at least one size and one other column, in any order and common wording
(`columns`); its rows are read cell by cell (`table_rows`). A line without a header is read as
words: the sizes are looked for first, joined by x or labelled (`size_words`), then wishes, weight
and count (`phrases`; what a thing is to the client, such as a hero or fragile: `wishes_in_words`).
Whatever has been understood is blanked out (`scan`), and what is left is the name. A heading of a
plain list becomes that of the things under it (`headings`).

Nothing is guessed that could be meant otherwise. Such a line gets a problem that asks
(`line_readings`), and no item; a reading that was a choice is noted beside its item. Lines of the
same thing are added up, and different things of one name are told apart by a number (`read`).
"""
