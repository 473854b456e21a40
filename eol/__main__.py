"""`python -m eol` and the `eol` command: calls the command line, nothing else."""

from eol.cli import main

if __name__ == "__main__":
    main()
