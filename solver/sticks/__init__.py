"""sticks."""
