"""What the spec means: items, pieces, load states."""
