"""The report of a shift as a mail, and alarms within a shift: composed once, kept until everyone has it."""
