"""The spec as frozen models: one module per file of the folder, joined in `Spec`."""
