"""Pure functions: numbers in, frozen results out, each with its published source."""
