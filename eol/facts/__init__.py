"""Views and statistics in, frozen answers out."""
