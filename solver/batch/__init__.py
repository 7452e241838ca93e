"""batch."""
