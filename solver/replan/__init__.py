"""replan."""
