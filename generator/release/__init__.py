"""One recipient's slices of the results."""
