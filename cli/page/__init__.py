"""The client page: a plan as one self-contained HTML file, its shelves to be dragged."""
