"""Measure units in, a conversion between two of one quantity out.

A small table, not a units library: benches send pressures, lengths, volumes, temperatures and a few
more, and the import of a library costs more than the load of a shift. Factors are exact or those of
the source; a temperature needs an offset as well.

Source: A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units,
NIST Special Publication 811 (2008), Appendix B.8.
"""

from __future__ import annotations

from dataclasses import dataclass

import polars as pl

from eol.plant.nearest import nearest

_POUND_FORCE = 0.45359237 * 9.80665
_INCH = 0.0254
_US_GALLON = 231 * _INCH**3

_FACTORS: dict[str, dict[str, float]] = {
    "pressure": {
        "Pa": 1.0,
        "hPa": 100.0,
        "mbar": 100.0,
        "kPa": 1e3,
        "MPa": 1e6,
        "bar": 1e5,
        "psi": _POUND_FORCE / _INCH**2,
        "kgf/cm2": 98_066.5,
        "at": 98_066.5,
        "atm": 101_325.0,
        "mmHg": 133.3224,
        "inHg": 3_386.389,
        "mmH2O": 9.80665,
        "inH2O": 249.0889,
    },
    "length": {
        "um": 1e-6,
        "mm": 1e-3,
        "cm": 1e-2,
        "m": 1.0,
        "km": 1e3,
        "in": _INCH,
        "ft": 12 * _INCH,
        "yd": 36 * _INCH,
        "mi": 63_360 * _INCH,
    },
    "volume": {
        "ml": 1e-6,
        "cm3": 1e-6,
        "l": 1e-3,
        "m3": 1.0,
        "in3": _INCH**3,
        "ft3": (12 * _INCH) ** 3,
        "US gal": _US_GALLON,
        "imp gal": 4.54609e-3,
    },
    "flow": {
        "ml/min": 1e-6 / 60,
        "l/min": 1e-3 / 60,
        "l/s": 1e-3,
        "l/h": 1e-3 / 3600,
        "m3/h": 1 / 3600,
        "m3/s": 1.0,
        "US gal/min": _US_GALLON / 60,
    },
    "speed": {
        "m/s": 1.0,
        "mm/s": 1e-3,
        "m/min": 1 / 60,
        "km/h": 1 / 3.6,
        "mph": 63_360 * _INCH / 3600,
    },
    "time": {"us": 1e-6, "ms": 1e-3, "s": 1.0, "min": 60.0, "h": 3600.0},
    "mass": {"mg": 1e-6, "g": 1e-3, "kg": 1.0, "t": 1e3, "lb": 0.45359237},
    "force": {"N": 1.0, "kN": 1e3, "kgf": 9.80665, "lbf": _POUND_FORCE},
    "torque": {"Nm": 1.0, "Ncm": 1e-2, "ft lbf": 12 * _INCH * _POUND_FORCE},
    "voltage": {"uV": 1e-6, "mV": 1e-3, "V": 1.0, "kV": 1e3},
    "current": {"uA": 1e-6, "mA": 1e-3, "A": 1.0},
    "resistance": {"mohm": 1e-3, "ohm": 1.0, "kohm": 1e3, "Mohm": 1e6, "Gohm": 1e9},
    "power": {"mW": 1e-3, "W": 1.0, "kW": 1e3},
    "share": {"ppm": 1e-6, "permille": 1e-3, "percent": 1e-2, "1": 1.0},
}
"""What one of each unit is in the first unit of SI of its quantity."""

_TEMPERATURES = {"degC": (9.0, 0.0), "K": (9.0, 273.15), "degF": (5.0, 32.0)}
"""What one degree of each is, in ninths of a kelvin, and where each stands at the ice point."""

_DIGITS = 15

_SPELLINGS = {
    "°C": "degC",
    "C": "degC",
    "°F": "degF",
    "F": "degF",
    "L": "l",
    "litre": "l",
    "liter": "l",
    "lpm": "l/min",
    "usgpm": "US gal/min",
    "gpm": "US gal/min",
    "gal": "US gal",
    "usgal": "US gal",
    "kgf/cm²": "kgf/cm2",
    "inch": "in",
    '"': "in",
    "mile": "mi",
    "kph": "km/h",
    "m³/h": "m3/h",
    "µm": "um",
    "μm": "um",
    "Ω": "ohm",
    "kΩ": "kohm",
    "MΩ": "Mohm",
    "%": "percent",
    "N·m": "Nm",
    "sec": "s",
}


@dataclass(frozen=True, slots=True)
class Conversion:
    """How a reading changes with its unit: (reading - before) × multiply ÷ divide + after.

    Both ways round to 15 digits, all that a decimal number keeps in a DOUBLE: 2.3 bar are 230 kPa and
    not a little less, so that a reading just at its limit stays there.
    """

    multiply: float = 1.0
    divide: float = 1.0
    before: float = 0.0
    after: float = 0.0

    def of(self, reading: float) -> float:
        """Return one reading in the new unit."""
        changed = (reading - self.before) * self.multiply / self.divide + self.after
        return float(f"{changed:.{_DIGITS}g}")

    def of_column(self, readings: pl.Expr) -> pl.Expr:
        """Return a column of readings in the new unit; null stays null."""
        changed = (readings - self.before) * self.multiply / self.divide + self.after
        return changed.round_sig_figs(_DIGITS)


def conversion(sent: str, wanted: str) -> Conversion:
    """Return how readings change from one measure unit to another.

    Args:
        sent: the unit of the file, such as "psi" or "°F".
        wanted: the unit the plant declares, such as "kPa" or "°C".

    Raises:
        ValueError: one of the units is unknown, or they do not measure the same thing.

    Source:
        NIST Special Publication 811 (2008), Appendix B.8.

    Example:
        >>> round(conversion("psi", "kPa").of(1), 6)
        6.894757
    """
    if sent.strip() == wanted.strip():
        return Conversion()
    from_quantity, multiply, before = _known(sent)
    to_quantity, divide, after = _known(wanted)
    if from_quantity != to_quantity:
        raise ValueError(
            f"{sent} measures {from_quantity} and {wanted} measures {to_quantity}; "
            "no factor turns one into the other"
        )
    return Conversion(multiply, divide, before, after)


def known_units() -> tuple[str, ...]:
    """Return the measure units that can be converted."""
    return (*(unit for units in _FACTORS.values() for unit in units), *_TEMPERATURES)


def _known(unit: str) -> tuple[str, float, float]:
    """The quantity a unit measures, its size, and where it stands at the ice point."""
    name = _SPELLINGS.get(unit.strip(), unit.strip())
    if name in _TEMPERATURES:
        return "temperature", *_TEMPERATURES[name]
    for quantity, factors in _FACTORS.items():
        if name in factors:
            return quantity, factors[name], 0.0
    near = nearest(name, known_units())
    hint = f"; the nearest right one is {near}" if near else ""
    raise ValueError(f"'{unit}' is no measure unit the tool can convert{hint}")
