// Dates as the reader writes them; the program sends them as year-month-day.
const noon = (day) => new Date(`${day}T12:00:00Z`);

// The days of a season are asked about again and again, on every frame of a drag.
const known = (work) => {
  const found = new Map();
  return (day) => {
    if (!found.has(day)) found.set(day, work(day));
    return found.get(day);
  };
};

const form = (options) => {
  const made = new Intl.DateTimeFormat(undefined, { timeZone: "UTC", ...options });
  return known((day) => made.format(noon(day)));
};
const count = known((day) => Math.round(noon(day) / 864e5));

export const said = form({ weekday: "short", day: "numeric", month: "short" });
export const brief = form({ day: "numeric", month: "short" });
export const month = form({ month: "short" });
export const weekday = form({ weekday: "short" });
export const whole = form({ weekday: "long", day: "numeric", month: "long", year: "numeric" });

export const shifted = (day, by) => {
  const date = noon(day);
  date.setUTCDate(date.getUTCDate() + by);
  return date.toISOString().slice(0, 10);
};

// Days from one date to another.
export const apart = (from, to) => count(to) - count(from);

export const moment = (at) => new Date(at).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });

// Words of the program, their dates as the reader writes them.
export const told = (words) => words.replace(/\b\d{4}-\d\d-\d\d\b/g, said);
