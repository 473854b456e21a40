"""A page that moves: one bundle of the drawing library, one script of ours, and a policy that names both.

The still figures stay in the page until theirs have been drawn; without scripts nothing is lost.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Iterable
from functools import cache
from hashlib import sha256
from typing import Any

from eol.figures.svg import Specs

_SNIPPET = "window.vegaEmbed = vegaEmbed;"
_PROGRAM = """(function () {
  "use strict";
  var specs = %s;
  var options = {
    renderer: "svg", ast: true, actions: false, defaultStyle: false, logLevel: 1, loader: {target: "_self"}
  };
  Object.keys(specs).forEach(function (name) {
    var place = document.getElementById("draw-" + name);
    var still = place.firstElementChild;
    var fresh = document.createElement("div");
    window.vegaEmbed(fresh, specs[name], options).then(function () {
      var drawn = fresh.querySelector("svg");
      ["role", "aria-label", "viewBox", "preserveAspectRatio"].forEach(function (key) {
        drawn.setAttribute(key, still.getAttribute(key));
      });
      drawn.removeAttribute("width");
      drawn.removeAttribute("height");
      fresh.className = "live";
      place.replaceChild(fresh, still);
      place.setAttribute("data-drawn", "yes");
    });
  });
})();"""
_ZOOM = {"name": "zoom", "select": {"type": "interval", "encodings": ["x"]}, "bind": "scales"}


def live_scripts(specs: Specs) -> tuple[str, str]:
    """Return the two scripts of a page: the library's bundle, and ours that draws the figures.

    Args:
        specs: the figures by name, as `specs_kept` gives them. Marks that say what they are say it
            where one points at them; a history can be drawn larger along its shifts.
    """
    moving = {name: _moving(name, spec) for name, spec in specs.items()}
    text = json.dumps(moving, ensure_ascii=True, separators=(",", ":"), sort_keys=True)
    return _bundle(), _PROGRAM % text.replace("<", "\\u003c").replace(">", "\\u003e")


def script_sources(scripts: Iterable[str]) -> str:
    """Return the part of the policy that allows these scripts and no other."""
    hashes = (b64encode(sha256(script.encode()).digest()).decode() for script in scripts)
    return "script-src " + " ".join(f"'sha256-{digest}'" for digest in hashes)


@cache
def _bundle() -> str:
    """The drawing library with all it needs; what would end the script early is written otherwise."""
    import vl_convert

    return str(vl_convert.javascript_bundle(_SNIPPET)).replace("</script", "<\\/script")


def _moving(name: str, spec: dict[str, Any]) -> dict[str, Any]:
    moving: dict[str, Any] = _pointed_at(spec)
    lines = [layer for layer in moving.get("layer", ()) if layer["mark"].get("type") == "line"]
    if name.startswith("ftt-") and lines:
        lines[-1]["params"] = [_ZOOM]
        for layer in moving["layer"]:
            # A zoom clips all marks to the plot; the words around it must stay.
            layer["mark"]["clip"] = layer["mark"]["type"] != "text"
    return moving


def _pointed_at(part: Any) -> Any:
    """The same specification, in which marks that say what they are say it when pointed at."""
    if isinstance(part, list):
        return [_pointed_at(each) for each in part]
    if not isinstance(part, dict):
        return part
    copied = {key: _pointed_at(value) for key, value in part.items()}
    encoding = copied.get("encoding")
    if isinstance(encoding, dict) and "description" in encoding:
        copied["encoding"] = {**encoding, "tooltip": encoding["description"]}
    return copied
