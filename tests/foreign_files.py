"""Invented files as benches and offices send them, none of them in the tool's own columns."""

from __future__ import annotations

from pathlib import Path

VIN, OTHER_VIN = "0ZZK0000000000001", "0ZZK0000000000002"

GERMAN_WATER = f"""VIN_NO;Prüfstand;TAG;ZEIT;ERG;Druck [bar];Dauer;Fehlercode;Ort;Bediener;Farbe
{VIN};W1;08.09.2026;06:00:00;i.O.;2,5;240;;;Ann;rot
{OTHER_VIN};W1;08.09.2026;07:00:00;n.i.O.;2,3;241;WL1;hinten;Bob;blau
{OTHER_VIN};W1;08.09.2026;08:00:00;Abbruch;2,4;90;;;Bob;blau
"""
AMERICAN_ELECTRICAL = f"""chassis,bench,start,end,status,error code,ecu
{VIN},E1,09/13/2026 6:05 AM,09/13/2026 6:10 AM,PASS,,
{OTHER_VIN},E1,09/13/2026 6:05 PM,09/13/2026 6:10 PM,FAIL,P0A1,BMS
"""
TABBED_TRACK = f"""Vehicle ID\tTimestamp\tOK\tSpeed\tTyre
{VIN}\t2026-09-08T06:00:00Z\t1\t30\tx
{OTHER_VIN}\t2026-09-08T06:10:00Z\t0\t31\ty
"""
LONG_READINGS = f"""VIN,Time,Parameter,Wert,Einheit,Stand
{VIN},2026-09-08 06:00:00,pressure_kpa,250,kPa,W1
{VIN},2026-09-08 06:00:00,volts,12.4,V,W1
"""
WIDE_READINGS = f"""fahrgestellnummer;start;pruefstand;Strom [A];Spannung [V]
{VIN};2026-09-08 06:00;E1;1,5;12,1
"""
SCHEDULE = f"""VIN;SeqNo;Modell;BandEnde;Dach
{VIN};1;WAG;08.09.2026 05:00;fest
{OTHER_VIN};2;VAN;08.09.2026 05:01;Glas
"""
REPAIRS = f"""FIN;Fehlercode;Beginn;Ende;Massnahme;Teil;Schicht
{VIN};WL1;08.09.2026 05:00;08.09.2026 05:20;abgedichtet;4711;Früh
"""
SKIDS = f"skid_no,VIN,from\n17,{VIN},2026-09-08 05:00\n"
BY_SKID = "Skid;Zeit;Ergebnis\n17;08.09.2026 05:00:01;OK\n"

FILES: dict[str, tuple[str, str]] = {
    "WT_20260908_0900.csv": (GERMAN_WATER, "cp1252"),
    "etest-2026-09-13.csv": (AMERICAN_ELECTRICAL, "utf-8"),
    "results.tsv": (TABBED_TRACK, "utf-16"),
    "meas_7.csv": (LONG_READINGS, "utf-8"),
    "e_wide[1].csv": (WIDE_READINGS, "utf-8"),
    "seq20260908.csv": (SCHEDULE, "utf-8"),
    "nacharbeit.csv": (REPAIRS, "utf-8"),
    "skids.csv": (SKIDS, "utf-8"),
    "w_skid.csv": (BY_SKID, "utf-8"),
}
"""By name the text of a file and its encoding."""


def foreign(folder: Path, name: str) -> Path:
    """Write one of the files into a folder."""
    text, encoding = FILES[name]
    path = folder / name
    path.write_bytes(text.encode(encoding))
    return path
