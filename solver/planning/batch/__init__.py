"""Several jobs planned together, so that they share sheets and mouldings."""
