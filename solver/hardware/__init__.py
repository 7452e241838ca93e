"""Hardware and consumables of an option, counted from its plan."""
