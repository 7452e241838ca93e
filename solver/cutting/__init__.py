"""Which piece comes from which sheet or stick, and where; with proven lower bounds."""
