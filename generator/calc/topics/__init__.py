"""One topic of the calculation per module."""
