"""sizing."""
