"""A season as it stands, and with one more round of the cup on some day."""

FUTURES = """\
[[futures]]
name = "as it stands"
[[futures]]
name = "a cup round"
[[futures.edits]]
edit = "add"
date = {date}
"""
