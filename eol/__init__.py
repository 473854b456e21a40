"""End-of-line test results: first-time-through, defect Pareto and defects per hundred units by shift.

    files ─> feeds ─> load ─> store ─> facts ─> figures ─> report
               ^                │       ^
             plant              ├─ ask  statistics
           (mapping)            └─ publish (read-only copy)

A line of the import table imports only from lines below it (held by tests/test_architecture.py):

    cli
    schedule
    mail | fleet | demo | notebook
    report
    figures
    load | ask | facts
    feeds | statistics | store
    plant
    sqlfiles
    words | errors

Names are loaded when they are used, so that `eol --help` stays cheap.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from eol.ask.dictionary import Dictionary, dictionary
    from eol.ask.parquet import publish_parquet
    from eol.ask.sql import ask_copy
    from eol.ask.unit import UnitTrail, unit_trail
    from eol.demo.build import DemoResult, build_demo
    from eol.errors import EolError
    from eol.facts.actions import Action, action_facts
    from eol.facts.contain_question import ContainQuestion
    from eol.facts.status import PlantStatus, plant_status
    from eol.facts.trace import trace_code
    from eol.facts.trace_result import Trace
    from eol.fleet.ask import Fleet, ask_fleet, write_fleet
    from eol.fleet.facts import FleetFacts, fleet_facts, fleet_rising
    from eol.fleet.page import write_fleet_page
    from eol.fleet.publish import LakePublished, publish_lake
    from eol.fleet.settings import SparkSettings
    from eol.load.action import ActionEntry, change_action, open_action
    from eol.load.ingest import FileOutcome, IngestResult, ingest
    from eol.mail.send import SendResult, send_report
    from eol.notebook.plant import OpenPlant, open_plant
    from eol.plant.folder import PlantFolder, init_folder, open_folder
    from eol.report.contain import Containment, contain
    from eol.report.dictionary import report_dictionary
    from eol.report.plant import report_day, report_shift, report_week
    from eol.schedule.run import RunResult, run_due
    from eol.schedule.units import schedule_units
    from eol.store.connect import open_copy
    from eol.store.health import PlantHealth, plant_health
    from eol.store.publish import publish_again

__all__ = [
    "Action",
    "ActionEntry",
    "ContainQuestion",
    "Containment",
    "DemoResult",
    "Dictionary",
    "EolError",
    "FileOutcome",
    "Fleet",
    "FleetFacts",
    "IngestResult",
    "LakePublished",
    "OpenPlant",
    "PlantFolder",
    "PlantHealth",
    "PlantStatus",
    "RunResult",
    "SendResult",
    "SparkSettings",
    "Trace",
    "UnitTrail",
    "action_facts",
    "ask_copy",
    "ask_fleet",
    "build_demo",
    "change_action",
    "contain",
    "dictionary",
    "fleet_facts",
    "fleet_rising",
    "ingest",
    "init_folder",
    "open_action",
    "open_copy",
    "open_folder",
    "open_plant",
    "plant_health",
    "plant_status",
    "publish_again",
    "publish_lake",
    "publish_parquet",
    "report_day",
    "report_dictionary",
    "report_shift",
    "report_week",
    "run_due",
    "schedule_units",
    "send_report",
    "trace_code",
    "unit_trail",
    "write_fleet",
    "write_fleet_page",
]

_HOME = {
    "Action": "eol.facts.actions",
    "ActionEntry": "eol.load.action",
    "ContainQuestion": "eol.facts.contain_question",
    "Containment": "eol.report.contain",
    "DemoResult": "eol.demo.build",
    "Dictionary": "eol.ask.dictionary",
    "EolError": "eol.errors",
    "FileOutcome": "eol.load.ingest",
    "Fleet": "eol.fleet.ask",
    "FleetFacts": "eol.fleet.facts",
    "IngestResult": "eol.load.ingest",
    "LakePublished": "eol.fleet.publish",
    "OpenPlant": "eol.notebook.plant",
    "PlantFolder": "eol.plant.folder",
    "PlantHealth": "eol.store.health",
    "PlantStatus": "eol.facts.status",
    "RunResult": "eol.schedule.run",
    "SendResult": "eol.mail.send",
    "SparkSettings": "eol.fleet.settings",
    "Trace": "eol.facts.trace_result",
    "UnitTrail": "eol.ask.unit",
    "action_facts": "eol.facts.actions",
    "ask_copy": "eol.ask.sql",
    "ask_fleet": "eol.fleet.ask",
    "build_demo": "eol.demo.build",
    "change_action": "eol.load.action",
    "contain": "eol.report.contain",
    "dictionary": "eol.ask.dictionary",
    "fleet_facts": "eol.fleet.facts",
    "fleet_rising": "eol.fleet.facts",
    "ingest": "eol.load.ingest",
    "init_folder": "eol.plant.folder",
    "open_action": "eol.load.action",
    "open_copy": "eol.store.connect",
    "open_folder": "eol.plant.folder",
    "open_plant": "eol.notebook.plant",
    "plant_health": "eol.store.health",
    "plant_status": "eol.facts.status",
    "publish_again": "eol.store.publish",
    "publish_lake": "eol.fleet.publish",
    "publish_parquet": "eol.ask.parquet",
    "report_day": "eol.report.plant",
    "report_dictionary": "eol.report.dictionary",
    "report_shift": "eol.report.plant",
    "report_week": "eol.report.plant",
    "run_due": "eol.schedule.run",
    "schedule_units": "eol.schedule.units",
    "send_report": "eol.mail.send",
    "trace_code": "eol.facts.trace",
    "unit_trail": "eol.ask.unit",
    "write_fleet": "eol.fleet.ask",
    "write_fleet_page": "eol.fleet.page",
}


def __getattr__(name: str) -> Any:
    """Load a public name from the module it lives in."""
    if name not in _HOME:
        raise AttributeError(f"module 'eol' has no attribute '{name}'")
    return getattr(import_module(_HOME[name]), name)


def __dir__() -> list[str]:
    """List the public names."""
    return __all__
