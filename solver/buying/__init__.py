"""The buy list of an option: sheets and sticks of the plan, hardware and consumables."""
