"""Puts this folder on the path, so that tests of all folders share its helpers."""
