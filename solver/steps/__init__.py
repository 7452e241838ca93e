"""The order of the work: steps with this job's numbers, and what each waits for."""
