"""costing."""
