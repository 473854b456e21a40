"""Pure functions: numbers in, frozen results out, each with its published source.

One method family a module; nothing here knows of stores, files or dates. A question without an
answer (no unit, no defect, too short a history) gives None or a result in words, never NaN; only a
caller's mistake raises ValueError.
"""
