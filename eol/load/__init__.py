"""Files to store: one file, one transaction."""
