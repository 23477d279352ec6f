"""Drawings: a display list of marks, placed and written as SVG."""
