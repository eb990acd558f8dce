"""Days of the week, Monday to Sunday."""

from enum import StrEnum


class Weekday(StrEnum):
    """A day of the week, as it is written in files."""

    MONDAY = "monday"
    TUESDAY = "tuesday"
    WEDNESDAY = "wednesday"
    THURSDAY = "thursday"
    FRIDAY = "friday"
    SATURDAY = "saturday"
    SUNDAY = "sunday"

    @property
    def number(self) -> int:
        """Return 0 for Monday to 6 for Sunday."""
        return list(Weekday).index(self)
