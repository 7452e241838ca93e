"""Lists of things as people write them: text or cells in, items and how each line was read out.

No files are read here. Entry points: :func:`solver.listing.read.read_listing` for text and
:func:`solver.listing.read.read_rows` for cells; `item_frames` takes a pandas table.

A text is split into lines, and from its first header on into rows of cells (`plain_lines`). A
header is a row that names at least one size and one other column, in any order and common wording
(`columns`); its rows are read cell by cell (`table_rows`).

A line without a header is read by a small grammar over tokens (`tokens`: numbers in figures and
in words, words, signs; their meanings in four languages in `vocabulary`). Recognisers take turns,
and each claims what it understands by blanking it out (`scan`, `free_tokens`): bullets and the
number in front, sizes with their labels, units and joints (`measures`, `sizes`, `sides`), wishes
(`phrases`, `wishes_in_words`), weight (`weights`), count (`counts`). What is left is the name and
a remark (`names`). A number that nothing has claimed is part of the name only where the name
plainly owns it (`free_tokens.owned`: 35mm, No. 5, 8-day, of 1884); any other is asked about.

What comes out is in `line_readings`. A line has a reading (`item`); or a reading with doubts,
each a question with choices, likeliest first, whose first choice the item already follows; or
problems, which say what is missing; or a reason to skip it. `Listing.answered` applies answers
before lines of the same thing are added up and different things of one name told apart. Nothing is
guessed in silence that could be meant otherwise: an unneeded question does less harm than a
misreading.

Over several lines (`read`): a name with its sizes on the line below, a heading with sizes for all
below it, what the list says of the order and unit of its sizes. Lines that hold no thing are set
aside with a reason (`asides`), and headings become those of the things below (`headings`).
"""
