"""tradeoff."""
