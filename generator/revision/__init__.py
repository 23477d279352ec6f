"""What was issued and what it was made from."""
