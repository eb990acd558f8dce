// Days and hours of the weeks in sight, asked for as they come into view.
import { useEffect, useState } from "preact/hooks";
import { weekday } from "../dates.js";
import { html } from "../html.js";
import { read } from "../talk.js";
import { Row } from "./row.js";
import { span } from "./scale.js";

const Thing = ({ kind, time, words }) => html`<li class=${`at-${kind}`}>${time && html`<b>${time}</b>`} ${words}</li>`;

export const dayThings = (day) => [
  ...day.sessions.map((each) => ({ kind: each.place, time: each.start, words: `${each.place} ${each.minutes} min: ${each.codes.join(", ")}`, full: each })),
  ...(day.practice ? [{ kind: "practice", time: day.practice.start, words: `practice${day.practice.minutes ? ` ${day.practice.minutes} min` : ""}` }] : []),
  ...(day.match !== null ? [{ kind: "match", time: "", words: `match ${day.match}` }] : []),
];

export const Days = ({ state }) => {
  const [found, setFound] = useState({ version: null, weeks: {} });
  useEffect(() => {
    const board = document.querySelector(".board");
    if (!board || state.stale || state.place !== "season") return undefined;
    let waiting = 0;
    const ask = async () => {
      const w = board.querySelector(".sheet").dataset.w;
      const first = Math.floor(board.scrollLeft / w) + 1, last = Math.ceil((board.scrollLeft + board.clientWidth) / w) + 1;
      const told = await read(`days?first=${first}&last=${last}`).catch(() => ({}));
      setFound((before) => ({ version: state.version, weeks: before.version === state.version ? { ...before.weeks, ...told } : told }));
    };
    const soon = () => { clearTimeout(waiting); waiting = setTimeout(ask, 120); };
    soon();
    board.addEventListener("scroll", soon);
    return () => { clearTimeout(waiting); board.removeEventListener("scroll", soon); };
  }, [state.version]);
  return html`<${Row} name="Days" kind="days">
    ${Object.entries(found.weeks).flatMap(([number, days]) => days.map((day, index) => html`<div key=${day.date} class="day" style=${span(number - 1 + index / 7, 1 / 7)}>
      <span class="day-name">${weekday(day.date)} <i>${day.label}</i></span>
      <ul>${dayThings(day).map((thing) => html`<${Thing} ...${thing} />`)}</ul>
    </div>`))}
  <//>`;
};
