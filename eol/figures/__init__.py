"""Facts in, Altair charts out, one chart a file."""
