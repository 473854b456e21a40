"""What a chart draws, read from its dict."""

from __future__ import annotations

from typing import Any


def layer_rows(spec: dict[str, Any], layer: dict[str, Any]) -> list[dict[str, Any]]:
    """Return the rows of one layer of a chart's dict."""
    own = layer["data"]
    rows: list[dict[str, Any]] = own["values"] if "values" in own else spec["datasets"][own["name"]]
    return rows


def chart_rows(spec: dict[str, Any]) -> list[dict[str, Any]]:
    """Return all rows of all layers of a chart's dict."""
    found = [*spec.get("data", {}).get("values", [])]
    found += [row for rows in spec.get("datasets", {}).values() for row in rows]
    for part in ("layer", "hconcat"):
        for layer in spec.get(part, []):
            found += chart_rows(layer)
    return found
