"""The command line: parses, calls one function of the library, prints."""
