"""The spec folder: text in, frozen models out, faults with file and line."""
