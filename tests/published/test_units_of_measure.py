"""Conversions of NIST Special Publication 811 (2008), Appendix B.8, and the sprays of IEC 60529."""

from __future__ import annotations

import pytest

from eol.feeds.measure_units import conversion


@pytest.mark.parametrize(
    ("sent", "wanted", "factor"),
    [
        ("psi", "kPa", 6.894757),
        ("bar", "kPa", 100.0),
        ("mbar", "kPa", 0.1),
        ("kgf/cm2", "kPa", 98.0665),
        ("ft", "m", 0.3048),
        ("in", "m", 0.0254),
        ("US gal", "l", 3.785412),
        ("imp gal", "l", 4.54609),
        ("mile", "km", 1.609344),
    ],
)
def test_factors(sent: str, wanted: str, factor: float) -> None:
    """Printed factors, to the seven digits in which they are printed."""
    assert conversion(sent, wanted).of(1) == pytest.approx(factor, rel=1e-6)


@pytest.mark.parametrize(("fahrenheit", "celsius"), [(32, 0), (212, 100), (-40, -40)])
def test_temperature_needs_its_offset(fahrenheit: float, celsius: float) -> None:
    """°C = (°F - 32) ÷ 1.8, exactly."""
    assert conversion("°F", "°C").of(fahrenheit) == celsius


@pytest.mark.parametrize(("litres", "gallons"), [(10, 2.64172), (12.5, 3.30215), (100, 26.4172)])
def test_spray_flows(litres: float, gallons: float) -> None:
    """The flows of IEC 60529, clause 14.2, in US gallons a minute."""
    assert conversion("l/min", "US gal/min").of(litres) == pytest.approx(gallons, rel=1e-5)


@pytest.mark.parametrize(("kilopascal", "psi"), [(50, 7.3), (150, 21.8)])
def test_spray_pressures(kilopascal: float, psi: float) -> None:
    """50 to 150 kPa are 7.3 to 21.8 psi, as printed to one digit."""
    assert conversion("kPa", "psi").of(kilopascal) == pytest.approx(psi, abs=0.05)
