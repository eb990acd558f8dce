"""How session cards are put on paper."""

from typing import Literal, get_args

#: A new sheet for each athlete, or for each session; all of the week one after the other; four to
#: a sheet.
Layout = Literal["athlete", "session", "week", "four"]
LAYOUTS: tuple[Layout, ...] = get_args(Layout)
