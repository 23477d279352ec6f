"""Documents: views, templates, PDF and HTML."""
