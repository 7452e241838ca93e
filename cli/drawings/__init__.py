"""Drawings: from a plan to a scene in millimetres, and from a scene to SVG, PDF, PNG and DXF."""
