"""A plan as rich tables; every function is pure, and every length printed by solver.units."""
