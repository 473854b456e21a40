"""What a chart draws, read from its dict."""

from __future__ import annotations

import json
from typing import Any

Spec = dict[str, Any]


def chart_rows(spec: Spec) -> list[Spec]:
    """Return all rows that a chart draws, each layer's in turn."""
    return [row for layer in layers(spec) for row in layer_rows(spec, layer)]


def layers(spec: Spec) -> list[Spec]:
    """Return the parts of a chart that have rows, in order."""
    own = [spec] if "data" in spec else []
    return own + [
        one
        for part in ("layer", "hconcat")
        for inner in spec.get(part, [])
        for one in layers(inner)
    ]


def layer_rows(spec: Spec, layer: Spec) -> list[Spec]:
    """Return the rows of one layer of a chart."""
    data = layer["data"]
    text = data["values"] if "values" in data else spec["datasets"][data["name"]]
    rows: list[Spec] = json.loads(text)
    return rows
