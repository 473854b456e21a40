"""What foreign files call the tool's columns and words: trade terms in English and German.

Names are compared as `plain` leaves them: small letters and digits alone, umlauts written out.
"""

from __future__ import annotations

import re
import unicodedata

from eol.words import Kind, Purpose, RepairClass, Result

_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"})
_UNIT = re.compile(r"[\[(]([^\[\]()]*)[\])]\s*$")
_WORDS = re.compile(r"[A-ZÄÖÜ]?[a-zäöüß]+|[A-ZÄÖÜ]+(?![a-zäöüß])|\d+")

NAMES: dict[str, str] = {
    "vin": "vehicle vehicleid fin fahrgestellnr fahrgestellnummer fgnr chassis",
    "station": "bench rig stand pruefstand anlage machine cell tester",
    "bay": "lane booth box spur kabine platz channel",
    "run_ref": "run runid runno testid testno protocol protokoll report",
    "started_at": "start starttime begin beginn startzeit timestamp datetime zeitstempel zeitpunkt testzeit"
    " time zeit date datum",
    "ended_at": "end endtime ende endzeit finish finished stop completed",
    "result": "verdict outcome status ergebnis erg io ok gesamtergebnis",
    "purpose": "reason runtype pruefgrund",
    "program": "programme programm recipe rezept software",
    "operator": "user worker inspector bediener werker pruefer",
    "last_step": "laststep letzterschritt",
    "revision": "version rev",
    "code": "fault faultcode defect defectcode error errorcode fehler fehlercode fehlerart fc",
    "zone": "area position location ort fehlerort module modul ecu steuergeraet bereich",
    "step": "phase teststep schritt pruefschritt element",
    "severity": "gravity schwere klasse defectclass",
    "quantity": "qty count anzahl menge",
    "rating": "score grade punkte bewertung",
    "note": "remark remarks comment bemerkung kommentar",
    "name": "parameter characteristic signal merkmal messgroesse quantityname",
    "sample": "sampleno messung",
    "value": "reading measured wert messwert istwert",
    "lower": "min lsl lowerlimit untergrenze ugw",
    "upper": "max usl upperlimit obergrenze ogw",
    "measure_unit": "uom unit einheit",
    "build_seq": "sequence seq seqno sequenz laufnummer buildno",
    "model": "modell variant variante derivat type typ",
    "line": "linie band",
    "line_off_at": "lineoff offline offlinetime bandende abgang",
    "at": "time timestamp datetime zeit zeitpunkt zeitstempel",
    "source": "quelle",
    "text_value": "value wert option",
    "kind": "event ereignis keytype art",
    "action": "repair repairaction work massnahme nacharbeit reparatur",
    "class": "repairclass actionclass",
    "owner_area": "owner department area bereich verursacher",
    "place": "location ort position",
    "part": "partno partnumber teil teilenummer",
    "lot": "batch charge los",
    "entered_at": "entry entrytime erfasst",
    "entered_by": "user bearbeiter",
    "reference": "ref document beleg",
    "title": "description text bezeichnung beschreibung",
    "valid_from": "from von gueltigab",
    "valid_to": "to until bis gueltigbis",
    "production_date": "date datum day tag",
    "shift": "schicht",
}
"""By column of the tool other names for it, plain."""

KEY_KINDS: dict[str, str] = {
    "skid": "skid skidno traeger",
    "body": "body bodyno karosse karosserienummer",
}
"""Kinds of unit key with other names for the column that holds one (rule 17)."""

MEANINGS: dict[str, dict[str, str]] = {
    "result": {
        Result.PASS: "ok io passed p good gut bestanden true 1 ja yes",
        Result.FAIL: "nok nio notok failed f ng bad schlecht fehler nichtbestanden false 0 nein no",
        Result.ABORTED: "abort abbruch abgebrochen cancelled interrupted stopped",
        Result.BYPASS: "bypassed skip skipped uebersprungen nottested",
    },
    "purpose": {
        Purpose.NORMAL: "first serie production erstpruefung",
        Purpose.RETEST: "repeat wiederholung nachpruefung",
        Purpose.AUDIT: "check stichprobe",
    },
    "kind": {
        Kind.PRODUCTION: "series serie p",
        Kind.TRIAL: "pilot prototype versuch vorserie",
        Kind.REFERENCE: "master referenz",
        Kind.TRAINING: "schulung",
    },
    "class": {
        RepairClass.REPAIRED: "repair repariert",
        RepairClass.REPLACED: "replace exchanged ersetzt getauscht",
        RepairClass.ADJUSTED: "adjust eingestellt",
        RepairClass.NONE: "nofault nff ohne keine",
    },
}
"""By column what foreign words mean in it, plain."""

CONCEPTS = (
    ("pressure", "druck", "press"),
    ("duration", "dauer", "laufzeit"),
    ("speed", "velocity", "geschwindigkeit", "tempo"),
    ("temperature", "temp", "temperatur"),
    ("flow", "durchfluss"),
    ("voltage", "spannung"),
    ("current", "strom"),
    ("volume", "volumen"),
    ("force", "kraft"),
    ("torque", "drehmoment"),
)
"""Words for one measured thing, to know a condition by."""


def plain(text: str) -> str:
    """Return a name or word as it is compared.

    Example:
        >>> plain("Prüf-Stand"), plain("n.i.O.")
        ('pruefstand', 'nio')
    """
    folded = unicodedata.normalize("NFC", text).lower().translate(_UMLAUTS)
    return re.sub(r"[^a-z0-9]", "", folded)


def words(text: str) -> tuple[str, ...]:
    """Return the words of a column's name, plain, its measure unit left out.

    Example:
        >>> words("Test_Druck [bar]"), words("FaultCode2")
        (('test', 'druck'), ('fault', 'code', '2'))
    """
    return tuple(plain(word) for word in _WORDS.findall(_UNIT.sub("", text)))


def bracketed_unit(text: str) -> str | None:
    """Return the measure unit in brackets at the end of a column's name.

    Example:
        >>> bracketed_unit("Druck [bar]")
        'bar'
    """
    found = _UNIT.search(text.strip())
    return found[1].strip() or None if found else None


def likeness(sent: str, name: str) -> int:
    """Return how much a column of a file is like one of the tool: 0 for not at all, 4 for the same.

    Example:
        >>> likeness("Prüfstand", "station"), likeness("VIN_NO", "vin"), likeness("Farbe", "vin")
        (3, 2, 0)
    """
    whole, others = plain(_UNIT.sub("", sent)), (NAMES | KEY_KINDS).get(name, "").split()
    if whole == plain(name):
        return 4
    if whole in others:
        return 3
    own = (plain(name), *others)
    pairs = [a + b for a, b in zip(words(sent), words(sent)[1:], strict=False)]
    if any(word in own for word in pairs):
        return 2
    return 2 if any(word in own for word in words(sent) if len(word) > 1) else 0


def meaning(column: str, word: str) -> str | None:
    """Return the tool's word for a foreign one; None where it is not known.

    Example:
        >>> meaning("result", "n.i.O."), meaning("result", "Pass"), meaning("result", "7")
        ('fail', 'pass', None)
    """
    for own, others in MEANINGS.get(column, {}).items():
        if plain(word) == plain(own) or plain(word) in others.split():
            return str(own)
    return None
