"""Dates and times of day as spreadsheets write them."""

import datetime as dt
import re
from collections.abc import Sequence
from contextlib import suppress
from zoneinfo import ZoneInfo

from cli.files.fixtures_found import DateOrder
from cli.files.fixtures_months import month_of
from cli.files.fixtures_weekdays import without_weekday

#: Year first, which says that the month is next.
YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})|(\d{4})(\d{2})(\d{2})")
NUMBERS = re.compile(r"(\d{1,2})([/.-])(\d{1,2})\2(\d{4}|\d{2})")
NAMED = re.compile(
    r"(\d{1,2})(?:st|nd|rd|th|er|[ºª°])?[\s./-]*(?:de\s+|of\s+)?([^\W\d_]{3,})[\s.,/'-]*"
    r"(?:de\s+)?(\d{4}|\d{2})",
    re.I,
)
MONTH_NAMED = re.compile(r"([^\W\d_]{3,})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})", re.I)
#: A moment with its distance from UTC, as feeds of data write it.
MOMENT = re.compile(
    r"\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2}(\.\d+)?)?\s*(Z|[+-]\d{2}:?\d{2})", re.I
)
#: Days since the end of 1899, as spreadsheets count them: those of 2000 to 2100.
SERIAL = re.compile(r"(\d{5})(?:\.0*)?")
SERIAL_START, SERIALS = dt.date(1899, 12, 30), range(36526, 73051)
WITH_TIME = re.compile(
    r"(.+?)(?:,?\s+(?:(?:at|um|ko|k\.o\.?)\s+)?|T)(\d{1,2}(?:[:.]\d{2}.*|\s*[ap]\.?m\.?))", re.I
)
CLOCK = re.compile(
    r"(\d{1,2})(?:\s*[:.,h]\s*(\d{2}))?(?:[:.](\d{2}))?\s*([ap])?\.?m?\.?(?:\s*(?:h|hrs|uhr))?",
    re.I,
)
WHOLE = re.compile(r"([01]\d|2[0-3])([0-5]\d)\s*(?:h|hrs?|uhr)?", re.I)
PART_OF_DAY = re.compile(r"0?[.,]\d+")
NOON = ("noon", "midday", "12 noon", "12noon")
ORDERS: tuple[DateOrder, ...] = ("day-first", "month-first")


def split_cell(cell: str) -> tuple[str, str]:
    """Return the date of a cell and the time after it, each as written, without a weekday."""
    plain, _ = without_weekday(cell)
    found = WITH_TIME.fullmatch(plain)
    day, time = (found[1], found[2]) if found else (plain, "")
    return without_weekday(day)[0], time


def is_moment(cell: str) -> bool:
    """Return whether a cell is a moment that says how far from UTC it is."""
    return bool(MOMENT.fullmatch(cell.strip()))


def local_moment(cell: str, zone: str) -> str:
    """Return a moment as the day and time of ``zone``; without one, as they are written."""
    with suppress(ValueError, OverflowError, LookupError):
        moment = dt.datetime.fromisoformat(cell.strip().replace(" ", "T", 1).upper())
        return f"{moment.astimezone(ZoneInfo(zone)) if zone else moment:%Y-%m-%d %H:%M}"
    return cell


def day_in(text: str, order: DateOrder) -> dt.date | None:
    """Return the day ``text`` says, day and month in ``order``; None if it says none."""
    if ordered := YEAR_FIRST.fullmatch(text):
        year, month, day = ordered.group(1, 3, 4) if ordered[1] else ordered.group(5, 6, 7)
        return _day(int(year), int(month), int(day))
    if (serial := SERIAL.fullmatch(text)) and int(serial[1]) in SERIALS:
        return SERIAL_START + dt.timedelta(days=int(serial[1]))
    if (worded := MONTH_NAMED.fullmatch(text)) and (month := month_of(worded[1])):
        return _day(int(worded[3]), month, int(worded[2]))
    if (named := NAMED.fullmatch(text)) and (month := month_of(named[2])):
        return _day(_year(named[3]), month, int(named[1]))
    found = NUMBERS.fullmatch(text)
    if not found or not order:
        return None
    first, second = int(found[1]), int(found[3])
    day, month = (first, second) if order == "day-first" else (second, first)
    return _day(_year(found[4]), month, day)


def date_order(dates: Sequence[str]) -> tuple[DateOrder, str]:
    """Return the order that reads all numeric ``dates``; none, and which one says so.

    The second is empty, or a date that can be read both ways, where the whole column can.
    """
    numeric = [date for date in dates if NUMBERS.fullmatch(date)]
    able = [order for order in ORDERS if all(day_in(date, order) for date in numeric)]
    if len(able) < 2:
        return (able[0] if able else "", "")
    both = (date for date in numeric if day_in(date, ORDERS[0]) != day_in(date, ORDERS[1]))
    unsure = next(both, "")
    return ("" if unsure else ORDERS[0], unsure)


def telling_date(dates: Sequence[str], order: DateOrder) -> str:
    """Return the date by which a column that could be read both ways is read in ``order``.

    Empty where every date says the same in both orders.
    """
    other = next(each for each in ORDERS if each != order)
    numeric = [date for date in dates if NUMBERS.fullmatch(date)]
    unsure = any(day_in(date, other) not in (None, day_in(date, order)) for date in numeric)
    told = next((date for date in numeric if day_in(date, other) is None), "")
    return told if unsure else ""


def clock(text: str) -> dt.time | None:
    """Return the time of day, of 24 hours or with am or pm; None if there is none."""
    plain = text.strip()
    if plain.lower() in NOON:
        return dt.time(12)
    if whole := WHOLE.fullmatch(plain):
        return dt.time(int(whole[1]), int(whole[2]))
    if PART_OF_DAY.fullmatch(plain):
        minutes = round(float(plain.replace(",", ".")) * 24 * 60)
        return dt.time(minutes // 60 % 24, minutes % 60)
    found = CLOCK.fullmatch(plain)
    half = (found[4] or "").lower() if found else ""
    if not found or not (found[2] or half or plain[-1:].lower() in ("h", "r", "s")):
        return None
    if not half and "m" in plain.lower():
        return None
    hour = int(found[1])
    if half and not 1 <= hour <= 12:
        return None
    hour = hour % 12 + (12 if half == "p" else 0) if half else hour
    with suppress(ValueError):
        return dt.time(hour, int(found[2] or 0), int(found[3] or 0))
    return None


def _year(text: str) -> int:
    return int(text) + (2000 if len(text) == 2 else 0)


def _day(year: int, month: int, day: int) -> dt.date | None:
    with suppress(ValueError):
        return dt.date(year, month, day)
    return None
