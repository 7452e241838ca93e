"""The trade-off front: price against rhythm against even headroom."""
