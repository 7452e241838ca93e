"""What others have printed, beside what this program works out for the same question."""
