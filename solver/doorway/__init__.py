"""doorway."""
