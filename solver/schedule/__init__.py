"""The steps in time, for one person and for two: a schedule by CP-SAT."""
