"""Build packets for the trailer of a self-built house on wheels: spec folder in, packet out."""

import os

__version__ = "0.1.0"

# The matrices here are small: threads cost more than they bring, and their number must not change the last digit.
os.environ["OPENBLAS_NUM_THREADS"] = "1"
