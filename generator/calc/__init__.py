"""The sums: quantities, checks, windows."""
