"""The price of an option, worked out from its buy list and its work."""
