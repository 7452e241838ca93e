"""Where each shelf goes and what stands on it (CP-SAT)."""
