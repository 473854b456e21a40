"""Facts and figures in, one self-contained HTML page out."""
