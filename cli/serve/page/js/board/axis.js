// Months and weeks: the part of the board that stays at the top.
import { brief, month } from "../dates.js";
import { html } from "../html.js";
import { rove, stop } from "../roving.js";
import { choose } from "../store.js";
import { span } from "./scale.js";

const months = (state) => {
  const found = [];
  for (const week of state.weeks) {
    const name = month(week.monday);
    if (found.at(-1)?.name === name) found.at(-1).weeks += 1;
    else found.push({ name, first: week.number, weeks: 1 });
  }
  return found;
};

const words = (week) => [
  `Week ${week.number}, from ${brief(week.monday)}, ${week.phase}`,
  week.closed && "closed", week.deload && "deload", week.taper && "taper",
  week.retest?.length > 0 && "test", week.touched && "changed",
].filter(Boolean).join(", ");

// Numbers that would touch each other are told for every second week.
const NARROW = 20, MONTH = 34;
const numbered = (week, w) => w >= NARROW || week.number % 2 === 1;

export const Axis = ({ state, w, zoom, chosen }) => html`<div class="axis">
  <div class="board-row months"><div class="row-name"></div><div class="lane">
    ${months(state).map((part) => html`<span key=${part.first} class="month" style=${span(part.first - 1, part.weeks)}>${part.weeks * w >= MONTH ? part.name : ""}</span>`)}
  </div></div>
  <div class="board-row weeks"><div class="row-name">Week</div><div class="lane" role="toolbar" aria-label="Weeks" onKeyDown=${rove}>
    ${state.weeks.map((week, index) => html`<button key=${week.number} type="button" class=${`week${week.touched ? " touched" : ""}${week.over ? " over" : ""}`}
      style=${span(index, 1)} aria-label=${words(week)} title=${words(week)} aria-pressed=${chosen?.kind === "week" && chosen.week === week.number}
      ...${stop(!index)} onClick=${() => choose({ kind: "week", week: week.number })}>${numbered(week, w) || chosen?.week === week.number ? week.number : ""}${zoom !== "season" && html`<small> ${brief(week.monday)}</small>`}</button>`)}
  </div></div>
</div>`;
