"""A season of four weeks, planned in no time."""

SHORT = 'name = "T"\nfirst_monday = 2026-08-31\nweeks = 4\n[[fixtures]]\ndate = 2026-09-26\n'
