"""A season of nine weeks that is planned in a second."""

ALL_SIX = """\
# A comment that must stay.
name = "Small season"
sport = "hockey"
first_monday = 2027-02-01   # a Monday
weeks = 9
fixtures_file = "list.csv"
"""
#: The same with three qualities, which is planned in no time.
SCENARIO = f"""\
{ALL_SIX}
[qualities]
resisted_sprint.use = false
plyometrics.use = false
general_strength.use = false
"""
FIXTURES = """\
date,kickoff,opponent,competition,venue,priority,notes
2027-03-06,15:00,Ashford,League,home,low,bring kit
2027-03-13,15:00,Birchwood,League,away,medium,
2027-03-20,15:00,Calder,League,home,low,
2027-04-03,14:00,Denholm,Cup final,neutral,high,
"""
