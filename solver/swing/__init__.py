"""The swing of a case about its pin: where it binds, what it needs, what would let it clear."""
