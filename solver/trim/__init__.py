"""The trim of cases as planned: every piece, whether it travels, and the arithmetic."""
