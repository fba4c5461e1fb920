"""Cards as HTML, PDF, CSV, JSON and drawings."""
