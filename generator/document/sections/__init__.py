"""One section per module, with the template of the same name."""
