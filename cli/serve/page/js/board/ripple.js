// The weeks that a change touches: drawn at once, before the program has answered, until it is planned.
import { apart } from "../dates.js";
import { html } from "../html.js";
import { span } from "./scale.js";

const weekOf = (state, day) => Math.floor(apart(state.first, day) / 7) + 1;

const stretch = (state, from, to) => {
  const first = Math.max(1, weekOf(state, from)), last = Math.min(state.weeks.length, weekOf(state, to));
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => first + at);
};

export const touchedBy = (state, edits) => edits.flatMap((edit) => [
  ...[edit.date, edit.to].filter(Boolean).map((day) => weekOf(state, day)),
  ...(edit.first && edit.last ? stretch(state, edit.first, edit.last) : []),
  ...(edit.week ? [edit.week] : []),
]);

export const Ripple = ({ state, touching }) => {
  const planned = state.solving && state.edits.length ? state.weeks.filter((week) => week.touched).map((week) => week.number) : [];
  const weeks = [...new Set([...touching, ...planned])];
  return html`<div class="columns" aria-hidden="true">${weeks.map((week) => html`<div key=${week} class="ripple" style=${span(week - 1, 1)}></div>`)}</div>`;
};
