// How wide a week is, and where a day lies: the season fits the window, months and weeks scroll.
import { apart } from "../dates.js";

const LEAST = 16, TOUCH = 26, MONTH = 112, WEEK = 784, PAPER = 905;
// Room beside the last week for the sign of a match on its last day.
export const EDGE = 10;
export const wideLabels = () => innerWidth >= 700;
export const label = () => (wideLabels() ? 136 : 92);

const room = () => {
  const place = document.querySelector(".board")?.parentElement;
  return (place ? place.clientWidth : innerWidth - 40) - label() - EDGE - 4;
};

export const weekWidth = (state, ui) => {
  if (ui.print) return PAPER / state.weeks.length;
  if (ui.zoom === "month") return MONTH;
  if (ui.zoom === "week") return WEEK;
  return Math.max(wideLabels() ? LEAST : TOUCH, Math.floor((10 * room()) / state.weeks.length) / 10);
};

// Where a day begins, in weeks from the first Monday.
export const at = (state, day) => apart(state.first, day) / 7;

export const left = (weeks) => `calc(var(--w) * ${weeks.toFixed(4)})`;
export const span = (from, weeks) => ({ left: left(from), width: left(weeks) });
