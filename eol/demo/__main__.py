"""`python -m eol.demo [FOLDER]` rebuilds the demo plant's files, in demo_parquet/ where no folder is named."""

import sys
from pathlib import Path

from eol.demo import write_demo
from eol.sqlfiles import demo_folder

if __name__ == "__main__":
    write_demo(Path(sys.argv[1]) if len(sys.argv) > 1 else demo_folder())
