"""The client page: a plan as one self-contained HTML file, its shelves to be dragged.

`page_file` makes the file and all that its templates show; `elevation_svg` has the picture's
numbers, `option_differences` the words, `option_rows` the table. `facts` is what the page's own
program gets: ticks, and for each opening how low and how high it may become, so that it needs no
rule of its own. Of that program, `js/units`, `rhythm`, `model` and `words` are pure; `picture` and
`handles` are the drawing and its sliders, `view` and `page` the rest.
"""
