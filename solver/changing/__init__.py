"""What differs between the revision that was signed and a plan of now."""
