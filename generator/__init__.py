"""Build packets for the trailer of a self-built house on wheels: spec folder in, packet out."""

__version__ = "0.1.0"
