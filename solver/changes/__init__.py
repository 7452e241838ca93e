"""changes."""
