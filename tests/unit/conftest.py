"""Puts `scratch` (the invented design of these tests) on the path."""
