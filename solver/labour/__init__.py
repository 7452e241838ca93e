"""How much work a plan is: counted from its parts and cuts, times the labour table."""
