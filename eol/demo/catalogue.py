"""What the plant can find and where: its defect codes, zones, tests, stations and crews."""

from __future__ import annotations

from dataclasses import dataclass, field

SAFETY_HV = (
    "High voltage: keep away. Only persons qualified for high-voltage work, "
    "after isolating it and measuring zero volts."
)
SAFETY_BELT = "Restraint fault: not on public roads. Only the restraint specialist may work on it."


@dataclass(frozen=True, slots=True)
class Code:
    """A defect code.

    Attributes:
        per_hundred: units in a hundred that have it without any story; 0 where stories plant it.
        places: zones it comes in, with weights.
        steps: steps that show it.
        action: what repair does about it, and the class of that repair.
    """

    code: str
    test: str | None
    title: str
    severity: str | None
    owner_area: str
    per_hundred: float
    places: dict[str, float]
    steps: tuple[str, ...]
    action: tuple[str, str]
    handling: str | None = None
    applies_when: str | None = None


@dataclass(frozen=True, slots=True)
class Test:
    """A test of the line: how long a run takes, where it runs and how long its repairs take.

    Attributes:
        length: seconds of a run.
        places: station, bay and the crew's evaluator of each place that can run it at one time.
        transfer: seconds from the stage before, least and most.
        repair: minutes of a repair, least and most.
        repair_place: where a failed unit goes.
    """

    __test__ = False

    name: str
    length: int
    places: tuple[Place, ...]
    transfer: tuple[int, int]
    repair: tuple[int, int]
    repair_place: str
    steps: tuple[str, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class Place:
    """One place that runs a test: a bench, half a bay, or an evaluator on the track."""

    station: str
    bay: str | None = None
    operator: str | None = None
    crew: str | None = None


EVALUATORS = {"amber": ("E03", "E11", "E17", "E22"), "violet": ("E05", "E08", "E26", "E30")}
"""The evaluators of each crew."""

INSPECTORS = {"amber": ("E31", "E32"), "violet": ("E35", "E36")}
"""Who signs off."""

TRACK = (
    "setts",
    "ropes",
    "corrugation",
    "twist ramps",
    "kerb drop",
    "joints",
    "coarse chip",
    "quiet straight",
)

TESTS = (
    Test(
        "alignment",
        180,
        tuple(Place(station) for station in ("G1", "G2", "G3")),
        (300, 480),
        (20, 60),
        "repair: wheels",
        ("wheels", "lamps"),
    ),
    Test(
        "electrical",
        230,
        tuple(Place(station) for station in ("E1-1", "E1-2", "E2-1", "E2-2")),
        (120, 240),
        (25, 120),
        "repair: electrical",
        ("wake-up", "isolation", "modules", "charging", "restraints"),
    ),
    # A bay is a lane in which two units stand one behind the other, so its runs may overlap.
    Test(
        "water",
        240,
        tuple(Place("W", bay) for bay in ("A", "A", "B", "B", "C", "C")),
        (180, 300),
        (60, 300),
        "repair: water",
        ("front", "roof", "rear"),
    ),
    Test(
        "squeak_rattle",
        240,
        tuple(
            Place("T1", operator=operator, crew=crew)
            for crew, operators in EVALUATORS.items()
            for operator in operators
        ),
        (240, 420),
        (30, 180),
        "repair: trim",
        TRACK,
    ),
)
"""The tests in the order in which the units pass them."""

_SILL = {"FOOT-FL": 4.0, "FOOT-FR": 4.0, "DASH": 2.0, "HV-TRAY": 0.3}
_DOORS = {"DOOR-FL": 3.0, "DOOR-FR": 3.0, "DOOR-RL": 2.0, "DOOR-RR": 2.0}
_POSTS = {"B-POST-L": 1.0, "B-POST-R": 1.0}
_DRAINS = {"ROOF-DRAIN-L": 1.0, "ROOF-DRAIN-R": 1.0}
_SEAMS = {"RL-QTR": 3.0, "RR-QTR": 2.0, "TAIL": 2.0, "DASH": 1.0}
_MIRRORS = {"MIRROR-L": 1.0, "MIRROR-R": 1.0}

CODES = (
    Code("AL-TOE", "alignment", "Toe outside limits", "B", "chassis", 0.15,
         {"AXLE-F": 3.0, "AXLE-R": 2.0}, ("wheels",), ("toe set", "adjusted")),
    Code("AL-CAMBER", "alignment", "Camber outside limits", "C", "chassis", 0.05,
         {"AXLE-F": 1.0, "AXLE-R": 1.0}, ("wheels",), ("camber set", "adjusted")),
    Code("AL-LAMP", "alignment", "Headlamp aim outside limits", "C", "front end", 0.15,
         {"LAMP-F": 1.0}, ("lamps",), ("headlamp aimed", "adjusted")),
    Code("EL-MIRROR", "electrical", "Mirror does not answer", "C", "doors", 0.0,
         _MIRRORS, ("modules",), ("mirror connector reseated", "repaired")),
    Code("EL-CHARGE", "electrical", "Charge port lock not confirmed", "B", "charging", 0.68,
         {"CHARGE-PORT": 1.0}, ("charging",), ("charge port lock changed", "replaced")),
    Code("EL-LAMP", "electrical", "Front lamp fault", "B", "front end", 0.6,
         {"LAMP-F": 1.0}, ("modules",), ("lamp plug reseated", "repaired")),
    Code("EL-CAM", "electrical", "Rear camera without picture", "C", "doors", 0.5,
         {"TAIL": 1.0}, ("modules",), ("camera changed", "replaced")),
    Code("EL-ISO", "electrical", "Isolation resistance too low", "A", "battery", 0.08,
         {"HV-TRAY": 3.0, "CHARGE-PORT": 1.0}, ("isolation",), ("cable changed", "replaced"),
         SAFETY_HV),
    Code("EL-BELT", "electrical", "Belt buckle switch not seen", "A", "seats", 0.04,
         {"SEAT-ROW2": 1.0}, ("restraints",), ("buckle changed", "replaced"), SAFETY_BELT),
    Code("BENCH_COMM", None, "Bench lost its connection", None, "equipment", 0.0,
         {}, ("wake-up",), ("bench restarted", "none")),
    Code("WL-SEAM", "water", "Leak at a sealed seam", "B", "body sealing", 0.3,
         _SEAMS, ("rear", "front"), ("seam sealed again", "repaired")),
    Code("WL-GLASS", "water", "Leak at glass", "B", "glass", 0.6,
         {"RF-GLASS": 3.0, "TAIL": 1.0}, ("front", "roof"), ("glass edge sealed", "repaired")),
    Code("WL-GROMMET", "water", "Leak at a grommet", "C", "trim", 0.5,
         _SILL, ("front",), ("grommet changed", "replaced")),
    Code("WL-DOOR", "water", "Leak at a door seal", "C", "doors", 0.8,
         _DOORS, ("front", "rear"), ("door seal refitted", "repaired")),
    Code("WL-TAIL", "water", "Leak at the tailgate seal", "C", "doors", 0.4,
         {"TAIL": 1.0}, ("rear",), ("tailgate seal refitted", "repaired")),
    Code("WL-DRAIN", "water", "Roof drain leaks inside", "B", "roof", 0.0,
         _DRAINS, ("roof",), ("drain hose refitted", "repaired"), None, "roof=opening"),
    Code("SR-CREAK", "squeak_rattle", "Creak of the dash", "C", "trim", 0.0,
         {"DASH": 1.0}, ("twist ramps", "setts"), ("felt laid under dash", "repaired")),
    Code("SR-TAILTRIM", "squeak_rattle", "Rattle of the tail trim", "D", "trim", 0.0,
         {"TAIL": 1.0}, ("joints",), ("clip changed", "replaced")),
    Code("SR-POST", "squeak_rattle", "Rattle of a post trim", "C", "trim", 0.6,
         _POSTS, ("setts", "corrugation"), ("post trim refitted", "repaired")),
    Code("SR-SEAT", "squeak_rattle", "Rattle of the second seat row", "C", "seats", 0.5,
         {"SEAT-ROW2": 1.0}, ("ropes", "corrugation"), ("latch set", "adjusted")),
    Code("SR-PARCEL", "squeak_rattle", "Rattle of the parcel shelf", "D", "trim", 0.4,
         {"PARCEL": 1.0}, ("kerb drop", "coarse chip"), ("shelf stop set", "adjusted")),
)  # fmt: skip
"""The catalogue, in the order of the tests."""

CODE_OF = {code.code: code for code in CODES}
"""The codes by name."""

ZONES = (
    ("LAMP-F", "Front lamps", "front-centre-low", "1,7 4,5 4,35 1,33", False),
    ("AXLE-F", "Front axle", "front-centre-low", "16,7 22,7 22,33 16,33", False),
    ("DASH", "Dash and bulkhead", "front-centre-mid", "25,7 31,7 31,33 25,33", False),
    (
        "RF-GLASS",
        "Windscreen and front glass",
        "front-centre-high",
        "32,8 38,10 38,30 32,32",
        False,
    ),
    ("MIRROR-R", "Right mirror", "front-right-high", "31,0 35,0 35,2 31,2", False),
    ("MIRROR-L", "Left mirror", "front-left-high", "31,38 35,38 35,40 31,40", False),
    ("FOOT-FR", "Right front footwell", "front-right-low", "32,4 41,4 40,9 34,7", False),
    ("FOOT-FL", "Left front footwell", "front-left-low", "34,33 40,31 41,36 32,36", False),
    ("DOOR-FR", "Right front door", "mid-right-mid", "36,1 49,1 49,4 36,4", False),
    ("DOOR-FL", "Left front door", "mid-left-mid", "36,36 49,36 49,39 36,39", False),
    ("B-POST-R", "Right B-post", "mid-right-mid", "49,1 52,1 52,9 49,9", False),
    ("B-POST-L", "Left B-post", "mid-left-mid", "49,31 52,31 52,39 49,39", False),
    ("ROOF-DRAIN-R", "Right roof drain", "mid-right-high", "42,9 66,9 66,12 42,12", False),
    ("ROOF-DRAIN-L", "Left roof drain", "mid-left-high", "42,28 66,28 66,31 42,31", False),
    ("HV-TRAY", "Battery tray", "mid-centre-low", "41,13 55,13 55,27 41,27", True),
    ("SEAT-ROW2", "Second seat row", "mid-centre-mid", "57,13 66,13 66,27 57,27", False),
    ("DOOR-RR", "Right rear door", "mid-right-mid", "52,1 66,1 66,4 52,4", False),
    ("DOOR-RL", "Left rear door", "mid-left-mid", "52,36 66,36 66,39 52,39", False),
    ("AXLE-R", "Rear axle", "rear-centre-low", "68,10 74,10 74,30 68,30", False),
    ("RR-QTR", "Right rear quarter", "rear-right-mid", "67,1 90,2 90,9 69,8", False),
    ("RL-QTR", "Left rear quarter", "rear-left-mid", "69,32 80,31 80,38 67,39", False),
    ("CHARGE-PORT", "Charge port", "rear-left-high", "82,31 90,31 90,38 82,38", True),
    ("PARCEL", "Parcel shelf", "rear-centre-high", "76,12 86,12 86,28 76,28", False),
    ("TAIL", "Tailgate", "rear-centre-mid", "92,5 97,8 97,32 92,35", False),
)
"""Zone, title, cell, outline (front at x 0, left side at y 40, seen from above) and high voltage near."""
