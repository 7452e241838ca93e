"""Strength, weight and hinges: one formula a function, with units, source, assumptions, limits."""
