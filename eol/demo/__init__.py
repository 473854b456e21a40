"""The invented plant Quillbrook behind `eol demo`: one seed in, files as a plant sends them out.

`write_demo(folder)` writes feed files, plant.toml and truth.json; `python -m eol.demo` rebuilds
`demo_parquet/`. Every figure and name in it is invented.
"""

from eol.demo.files import write_demo
from eol.demo.truth import Truth

__all__ = ["Truth", "write_demo"]
