"""The joint decision over layout, sizes and stock."""
