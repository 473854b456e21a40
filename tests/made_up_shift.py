"""Made-up facts of one shift: a loud one, a quiet one, an empty one and one under stress."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta

from made_up_follow import action, back, seeing
from made_up_signals import changed

from eol.facts.bays import Bay
from eol.facts.ftt import FttSeries, ShiftPoint
from eol.facts.header import Header, Station
from eol.facts.limits import Usual, share_range
from eol.facts.pareto import Pareto, ParetoRow, pareto_facts
from eol.facts.shift import ShiftFacts
from eol.facts.signals import Signals
from eol.facts.strip import Figure, Strip
from eol.facts.units import Escape, OpenUnit, SafetyUnit, UnitWithCode
from eol.facts.zones import ZoneCount, Zones

DAY = date(2026, 9, 18)
CLOCK = datetime(2026, 9, 18, 14, 41)
TITLES = {
    "electrical": "Electrical test",
    "water": "Water test",
    "squeak_rattle": "Squeak and rattle track",
}
HANDLING = "High voltage: only people trained for it may open this unit."


def vin(number: int) -> str:
    """Return a made-up VIN."""
    return f"0ZZKW1AB7T{number:07d}"


def header(*, heard: bool = True) -> Header:
    """Return the header of the day shift of Fri 18 Sep 2026."""
    return Header(
        plant="Quillbrook",
        production_date=DAY,
        shift="day",
        crew="2",
        starts_at=datetime(2026, 9, 18, 6, 0),
        ends_at=datetime(2026, 9, 18, 14, 30),
        cancelled=False,
        data_clock=CLOCK,
        settled=False,
        stations=(
            Station("E1", "electrical", CLOCK, True),
            Station("W1", "water", datetime(2026, 9, 18, 13, 2), heard),
            Station("T1", "squeak_rattle", CLOCK, True),
        ),
    )


def series(test: str, rates: list[float], *, tested: int = 400, limits: bool = True) -> FttSeries:
    """Return one test's last shifts from its first-pass shares, the present one last."""
    passed = [round(rate * tested) for rate in rates]
    centre = passed[:-1] if limits else passed[:5]
    usual = share_range(centre, [tested] * len(centre), present=tested)
    days = [DAY - timedelta(days=(len(rates) - 1 - at) // 2) for at in range(len(rates))]
    points = tuple(
        ShiftPoint(day, ("night", "day")[at % 2], tested, passed[at], passed[at] / tested, usual)
        for at, day in enumerate(days)
    )
    return FttSeries(
        test, TITLES.get(test, test), True, points, len(centre), 0.9, 0.98, tested + 4, 2, 3, 1, 20
    )


def wave(level: float, spread: float, last: float) -> list[float]:
    """Return 30 shares that swing around a level, and the present one."""
    swing = [0.3, -0.6, 0.9, -0.2, -1.0, 0.5, 0.1, -0.4, 0.8, -0.7]
    return [level + spread * swing[at % 10] for at in range(29)] + [last]


def code(
    test: str,
    name: str,
    title: str,
    defects: int,
    severity: str | None = "C",
    *,
    safety: bool = False,
    usual: tuple[float, float] | None = None,
) -> dict[str, object]:
    """Return one row as `pareto_by_shift` gives it, with the range that is usual for it."""
    return {
        "test": test,
        "code": name,
        "title": title,
        "owner_area": "trim",
        "severity": severity,
        "safety_related": safety,
        "defects": defects,
        "units": defects,
        "at_risk": 400,
        "per_100_at_risk": defects / 4,
        "usual": usual,
    }


def pareto(*codes: dict[str, object]) -> Pareto:
    """Return a Pareto of made-up codes."""
    usual = {
        (str(row["test"]), str(row["code"])): Usual(*_range(row["usual"]), 40)
        for row in codes
        if row["usual"]
    }
    return pareto_facts(codes, usual)


def _range(usual: object) -> tuple[float, float, float]:
    low, high = usual  # type: ignore[misc]
    return low, (low + high) / 2, high


LOUD_CODES = (
    code("water", "WL-SEAM", "Leak, rear quarter seam", 19, "B", usual=(0, 6)),
    code("squeak_rattle", "SR-CREAK", "Creak, dash", 11, "C", usual=(2, 12)),
    code("water", "WL-GLASS", "Leak, glass edge", 7, "B", usual=(0, 9)),
    code("electrical", "EL-CAM", "Camera gives no answer", 6, "B", usual=(0, 8)),
    code("squeak_rattle", "SR-POST", "Squeak, B post trim", 5, "C", usual=(0, 9)),
    code("electrical", "EL-CHARGE", "Charge port lock", 4, "C", usual=(0, 8)),
    code("squeak_rattle", "SR-SEAT", "Rattle, seat rail", 4, "D", usual=(0, 8)),
    code("electrical", "UNSPECIFIED", "", 3, None),
    code("water", "WL-TAIL", "Leak, tail lamp", 3, "B", usual=(0, 7)),
    code("squeak_rattle", "SR-PARCEL", "Rattle, parcel shelf", 2, "D"),
    code("electrical", "EL-ISO", "Isolation resistance low", 1, "A", safety=True),
)

QUIET_CODES = tuple(
    code(str(row["test"]), str(row["code"]), str(row["title"]), count, "C", usual=(0, 12))
    for row, count in zip(LOUD_CODES, (6, 6, 5, 5, 4, 3, 3, 2, 2, 1), strict=False)
)


def zone(name: str, title: str, cell: str, defects: int, *, hv_near: bool = False) -> ZoneCount:
    """Return one zone by its cell."""
    row, side, _ = cell.split("-")
    return ZoneCount(name, title, row, side, (), hv_near, defects, "WL-SEAM" if defects else None)


def zones(*counts: int) -> Zones:
    """Return the zones of the made-up plant with their defects."""
    places = (
        ("RR-QTR", "Rear quarter, right", "rear-right-mid"),
        ("RL-QTR", "Rear quarter, left", "rear-left-mid"),
        ("RF-GLASS", "Roof glass", "mid-centre-high"),
        ("TAIL", "Tail lamp", "rear-centre-mid"),
        ("DASH", "Dash", "front-centre-mid"),
        ("B-POST-L", "B post, left", "mid-left-mid"),
        ("B-POST-R", "B post, right", "mid-right-mid"),
        ("FOOT-FL", "Foot well, front left", "front-left-low"),
    )
    placed = [zone(*place, count) for place, count in zip(places, counts, strict=False)]
    return Zones(tuple(sorted(placed, key=lambda z: -z.defects)), (), 3)


def bay(test: str, name: str, passed: int, tested: int, *, by_luck: float = 0.4) -> Bay:
    """Return one bay with a rough interval."""
    share = passed / tested
    return Bay(
        test=test,
        title=TITLES.get(test, test),
        name=name,
        tested=tested,
        passed_first=passed,
        ftt=share,
        low=max(0.0, share - 0.06),
        high=min(1.0, share + 0.04),
        presented=tested + 2,
        void_runs=1,
        others_ftt=0.965,
        by_luck=by_luck,
    )


LOUD_BAYS = (
    bay("electrical", "E1 1", 129, 134),
    bay("electrical", "E1 2", 127, 133),
    bay("electrical", "E2 1", 128, 133),
    bay("water", "W1 A", 131, 137),
    bay("water", "W1 B", 111, 136, by_luck=1e-6),
    bay("water", "W1 C", 134, 136),
    replace(bay("squeak_rattle", "T1", 385, 411), others_ftt=None),
)


def open_unit(number: int, hours: float, *, handling: str | None = None) -> OpenUnit:
    """Return one waiting unit."""
    test = ("water", "electrical", "squeak_rattle")[number % 3]
    waiting = ("repair", "repair", "retest", "repair", "decision")[number % 5]
    return OpenUnit(
        vin=vin(100_500 + number),
        test=test,
        title=TITLES[test],
        status="held" if waiting == "decision" else "failed",
        waiting_for=waiting,
        hours=hours,
        loops=number % 3,
        place=f"bay {number % 7 + 1}",
        codes="WL-SEAM",
        handling=handling,
    )


def open_units(count: int, *, oldest: float) -> tuple[OpenUnit, ...]:
    """Return waiting units, the longest first."""
    hours = [oldest * 0.9**at + 0.4 for at in range(count)]
    return tuple(
        open_unit(at, hour, handling=HANDLING if at == 1 else None) for at, hour in enumerate(hours)
    )


def safety_unit(number: int, *, in_shift: bool = True) -> SafetyUnit:
    """Return one unit with a safety-related finding."""
    return SafetyUnit(
        vin=vin(100_600 + number),
        test="electrical",
        title=TITLES["electrical"],
        code="EL-ISO",
        code_title="Isolation resistance low",
        zone="HV-PACK",
        found_at=CLOCK - timedelta(hours=number),
        in_shift=in_shift,
        status="failed",
        place="repair area 2",
        handling=HANDLING,
    )


def strip(*, loud: bool) -> Strip:
    """Return the strip of a loud or a quiet shift."""
    part = 338 if loud else 365
    return Strip(
        built=412,
        tested_in_full=411 if loud else 412,
        undecided=1 if loud else 0,
        void_tests=Figure(9.0 if loud else 4.0, n=1230, usual=Usual(0, 4, 8, 40), up_is_worse=True),
        line_ftt=Figure(
            part / 411,
            n=411,
            part=part,
            low=part / 411 - 0.04,
            high=part / 411 + 0.03,
            worst=part / 412,
            best=(part + 1) / 412,
            usual=Usual(0.86, 0.89, 0.92, 40),
            target=0.90,
        ),
        rty=Figure(0.827 if loud else 0.885, usual=Usual(0.86, 0.89, 0.93, 40)),
        dphu=Figure(
            15.8 if loud else 10.5,
            n=411,
            part=65 if loud else 43,
            low=12.1 if loud else 7.5,
            high=19.6 if loud else 13.6,
            usual=Usual(8, 11, 14, 40),
            up_is_worse=True,
        ),
    )


LOUD_SIGNALS = Signals(changed=(changed("WL-SEAM", 19),), zones=(changed("RR-QTR", 19, test=""),))


def loud_shift() -> ShiftFacts:
    """Return a shift with something of everything."""
    return ShiftFacts(
        header=header(heard=False),
        strip=strip(loud=True),
        tests=(
            series("electrical", wave(0.965, 0.01, 0.961)),
            series("water", wave(0.97, 0.008, 0.919)),
            series("squeak_rattle", wave(0.94, 0.012, 0.937)),
        ),
        pareto=pareto(*LOUD_CODES),
        zones=zones(19, 4, 7, 3, 11, 3, 2, 0),
        bays=LOUD_BAYS,
        open_units=open_units(37, oldest=76.0),
        escapes=(Escape(vin(100_214), "water", TITLES["water"], "void", "ship", CLOCK, True),),
        safety_units=(safety_unit(1), safety_unit(20, in_shift=False)),
        units_with_code=units(LOUD_CODES),
        refused_rows=0,
        signals=LOUD_SIGNALS,
    )


def units(codes: tuple[dict[str, object], ...]) -> tuple[UnitWithCode, ...]:
    """Return one unit for each defect of some codes."""
    return tuple(
        UnitWithCode(
            test=str(row["test"]),
            code=str(row["code"]),
            vin=vin(100_000 + 50 * place + at),
            zone="RR-QTR",
            station="W1",
            bay="B",
            found_at=CLOCK - timedelta(minutes=7 * at),
            status="failed",
            place="repair area 1",
            handling=HANDLING if row["safety_related"] else None,
        )
        for place, row in enumerate(codes)
        for at in range(int(str(row["defects"])))
    )


def quiet_shift() -> ShiftFacts:
    """Return a shift in which nothing needs a look."""
    return replace(
        loud_shift(),
        header=header(),
        strip=strip(loud=False),
        tests=(
            series("electrical", wave(0.965, 0.01, 0.969)),
            series("water", wave(0.97, 0.008, 0.973)),
            series("squeak_rattle", wave(0.94, 0.012, 0.939)),
        ),
        pareto=pareto(*QUIET_CODES),
        zones=zones(4, 5, 6, 4, 6, 3, 2, 4),
        bays=tuple(replace(each, by_luck=0.3) for each in LOUD_BAYS if each.name != "W1 B"),
        open_units=open_units(21, oldest=9.0),
        escapes=(),
        safety_units=(),
        units_with_code=units(QUIET_CODES),
        signals=Signals(),
    )


def empty_shift() -> ShiftFacts:
    """Return a shift without a tested unit, without zones, bays or anything open."""
    none = Figure(None)
    flat = Strip(0, 0, 0, Figure(0.0, up_is_worse=True), none, none, none)
    return replace(
        quiet_shift(),
        header=replace(header(), stations=(), crew=None),
        strip=flat,
        tests=tuple(_untested(test) for test in TITLES),
        pareto=pareto(),
        zones=Zones((), (), 0),
        bays=(),
        open_units=(),
        escapes=(),
        units_with_code=(),
    )


def _untested(test: str) -> FttSeries:
    point = ShiftPoint(DAY, "day", 0, 0, None, None)
    return FttSeries(test, TITLES[test], True, (point,), 0, None, None, 0, 0, 0, 0, 0)


def stress_shift() -> ShiftFacts:
    """Return a shift with 40 codes, long titles, 12 bays of a test and 300 open units."""
    long = " with a title that is much longer than any column would ever allow it to be"
    codes = tuple(
        code(
            "water",
            f"WL-{at:02d}",
            f"Leak number {at}{long}",
            60 - at,
            "ABCD"[at % 4] if at < 8 else "D",
            safety=at in (11, 30, 35, 38),
            usual=(0, 9),
        )
        for at in range(40)
    )
    tests = ("electrical", "water", "squeak_rattle", "lamp_aim", "charging")
    loud = loud_shift()
    return replace(
        loud,
        tests=tuple(series(test, wave(0.95, 0.02, 0.88)) for test in tests),
        pareto=pareto(*codes),
        bays=tuple(bay("water", f"W{at} B", 100, 136, by_luck=at / 1e4) for at in range(12)),
        open_units=open_units(300, oldest=400.0),
        escapes=tuple(
            Escape(vin(7_000 + at), "water", TITLES["water"], "void", "ship", CLOCK, at < 30)
            for at in range(90)
        ),
        safety_units=tuple(safety_unit(at, in_shift=at < 12) for at in range(60)),
        units_with_code=units(codes),
        refused_rows=812,
        seeing=seeing(),
        actions=tuple(
            action(f"CM-{at}", after=(90, 300), came_back=back(), what="Something new" + long)
            for at in range(9)
        ),
    )


def one_row(facts: ShiftFacts, name: str) -> ParetoRow:
    """Return the Pareto row of one code."""
    return next(row for row in facts.pareto.rows if row.code == name)
