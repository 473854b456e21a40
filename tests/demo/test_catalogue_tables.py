from eol.demo import catalogue_tables
from eol.plant.clauses import parse_applies_when


def test_code_rows_name_who_is_at_risk() -> None:
    """S7: drains leak on units with an opening roof."""
    clauses = catalogue_tables.code_rows().drop_nulls("applies_when")
    assert dict(clauses.select("code", "applies_when").iter_rows()) == {"WL-DRAIN": "roof=opening"}
    assert parse_applies_when("roof=opening")


def test_shift_rows_are_the_calendar() -> None:
    """40 windows of 8.5 hours with a crew each."""
    rows = catalogue_tables.shift_rows()
    lengths = (rows["ends_at"] - rows["starts_at"]).dt.total_minutes()
    assert (len(rows), set(lengths)) == (40, {510})
    assert rows["crew"].null_count() == 0


def test_lots_follow_one_another_and_overlap_once() -> None:
    """S4: three lots share the days of the bad one."""
    rows = catalogue_tables.lot_rows()
    shared = rows.filter(rows["from_build_seq"] == 108_001)
    assert sorted(shared["lot"]) == ["C-4470", "C-4471", "C-4472"]


def test_countermeasures_state_no_verdict() -> None:
    """S3: they say what was done from which unit on; whether it worked is for the tool to find."""
    rows = catalogue_tables.countermeasure_rows()
    assert dict(rows.select("code", "from_build_seq").iter_rows()) == {
        "EL-MIRROR": 106_401,
        "SR-CREAK": 104_801,
        "WL-DOOR": 115_601,
    }
    assert (rows["baseline_from"] <= rows["baseline_to"]).all()


def test_zones_with_high_voltage_near_are_marked() -> None:
    """Water there is safety-related whatever its severity."""
    rows = catalogue_tables.zone_rows()
    assert set(rows.filter("hv_near")["zone"]) == {"HV-TRAY", "CHARGE-PORT"}
