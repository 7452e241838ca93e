"""Restates every rule from the plan alone; imports no model and no ortools."""
