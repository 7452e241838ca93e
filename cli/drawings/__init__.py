"""Drawings: from a plan to a scene in millimetres, and from a scene to SVG, PDF, PNG and DXF.

A `Scene` is a list of shapes (`shapes`) in millimetres of the thing itself, y up; lettering and
line widths are millimetres on paper. It is made for one scale, since dimension lines stand off
the thing by a distance on paper. `pages.to_fit` takes the largest standard scale at which a
drawing fits its paper; figures of dimensions are 3.5 mm high, and 2.5 mm where 3.5 mm would cost a
scale.

* One drawing a module: `front_elevation`, `vertical_section`, `swing_plan`, `marking_drawing`,
  `trim_elevation`, `cutting_diagram`, `stick` (the story stick); `drawing_kinds` lists them.
* What they are made of: `dimensioned` and `running` (dimensions), `hatching`, `keys`, `things`,
  `pictures`, `marks` (what is marked on each face of a side or upright).
* Files: `svg` at true scale, `pdf` (PDF and PNG, set by typst), `dxf` at full size.

A name is lettered by `fonts.printable`: signs that no font at hand has are named in brackets.
"""
