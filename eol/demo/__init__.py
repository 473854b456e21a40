"""The invented plant Quillbrook behind `eol demo`."""
