"""A second opinion on the counting rules: dicts, lists and clocks, row by row.

It shares nothing with the tool: no SQL, no data frames, no import of the package. What goes in
is a `Plant` (settings as plant.toml has them, files as rows); what comes out is an `Opinion`.
The rules are those of DEVELOPERS.md. Where a rule leaves a choice, this is the one taken here:

Rule 1: a version is the rows of one run in one file. It wins whole, with its inline findings and
    conditions; findings and readings that come by their own feed are merged row by row.
Rule 2: the equal runs themselves are `suspect_double`, not the other runs of their file. A
    version that would move known run_refs by an hour never wins. What a file before both told the
    same is no re-export, so that a file that grows never doubts its own rows. Starts are compared
    by their seconds, which name runs.
Rule 3: a cancelled window does not exist; between windows the date is that of the last begun.
    In the repeated hour the order of the ends decides; a run starts at the later reading of its
    start that is not after its end, and ends at the earlier reading of its end that is not
    before its start. A bench's clock is set right for whole runs, by their start as sent.
Rule 4: the valid row of limits, plan and catalogue has the newest valid_from not after `at`, and
    a valid_to that is null or later. An aborted run that counts can be harsh, like a fail.
    What had settled after a load is what rule 11 makes of the files until then, wherever the data
    clock stands; a figure whose row is gone has no units and no value.
Rules 6, 8: a finding of owner_area `equipment` is `equipment` on any run, counted or not; any
    other finding of an uncounted run is `void`.
Rule 8: the severity of a defect is the gravest sent on its findings, else the catalogue's at the
    run's `at` (the test's own row before that of all tests), else null: unclassed, no demerits.
    A comparison of defect_when with a null field makes no observation. `repeat` means that the
    same code and zone was a counting finding of an earlier counted run, not an observation.
Rule 9: presented counts units with any run stamped into the shift, void_runs every uncounted run
    whose void_reason is not aborted. A unit without a counted run is pending in the shift of its
    last void run of that test.
Rule 10: at risk are the attempt-1 units of the shift and test that meet applies_when of the
    code's catalogue row, or are unknown, or show the defect.
    A unit's known is false only where an unknown attribute alone puts it at risk. A column of the
    units feed is an attribute as of the line-off that its row tells, with `units` as its source.
Rule 11: clear_at is the first pass of the unbroken run of passes that is clear; went_through is
    asked before failed_one. A unit's first run is the earliest start of any test. A line cohort
    settles by its required tests, ftt_by_shift by the stations of its own test; the units feed
    sends when its file is made.
Rule 12: the root is found along same_as by the catalogue at the run's `at`. Line defects are
    divided by all built units.
    Rolled yield is 0 where a required test is at 0, also beside one without attempt 1.
Rule 13: a check is one of a unit whose kind is `reference`, told or declared; it must show every
    code that is declared for it in the test.
Feeds: a station is listed with each test that it is declared for or ran, any other feed once a
    file of it came. The units feed tells its newest line-off, that of superseded rows too.
Open units: one of a test that is not required is listed only where a run of it counts. It waits
    for a decision where held or bypassed, for a reading where pending, for repair while a repair
    of class other than none is open since the latest fail, and after a fail until one has ended;
    every other waits for a retest.
Rule 14: the event of an escape is the unit's first event of proof. `return` ends releases,
    scrap and divert, but not the proof. A release covers a test in which the unit was not clear
    when it was given.
Rule 15: a repair of the unit between fail and pass speaks for the loop where it names its test,
    or none.
Safety list (rules 4, 15): listed is what a fail that counts, or a harsh one, showed and the
    catalogue called safety-related then, with the words of its last sighting; until a release
    by name and reference that is not before it. `return` does not list it again.
Rule 16: 0 defects have an interval for n = 1 too; with defects n = 1 has none.
"""

from second_opinion.evaluate import evaluate
from second_opinion.records import File, Opinion, Plant

__all__ = ["File", "Opinion", "Plant", "evaluate"]
