// The borders between blocks: each can be pulled to another week, with the pointer or by keys.
import { useState } from "preact/hooks";
import { brief, shifted } from "../dates.js";
import { html } from "../html.js";
import { edit } from "../talk.js";
import { grasp } from "./drag.js";

const STEPS = { ArrowLeft: -1, ArrowRight: 1 };

// Where a block begins after another one of the same phase: the calendar fixes all other borders.
export const free = (state) => (state.borders ? state.weeks.filter((week, index) => {
  const before = state.weeks[index - 1];
  return before && week.planned && week.block_week === 1 && week.number > state.over + 1 && !week.closed && !before.closed && before.phase === week.phase;
}).map((week) => week.number) : []);

const set = (parameter, weeks) => ({ edit: "set", rule: "blocks", parameter, value: [...new Set(weeks)].sort((a, b) => a - b) });

// A block begins in one week and no longer in another; null leaves one of them as it is.
export const ask = (state, to, from) => {
  const { begin, go_on: goOn } = state.borders, edits = [];
  const begins = [...begin.filter((week) => week !== from), ...(to ? [to] : [])];
  const goes = [...goOn.filter((week) => week !== to), ...(from ? [from] : [])];
  if (String(begins) !== String(begin)) edits.push(set("begin", begins));
  if (String(goes) !== String(goOn)) edits.push(set("go_on", goes));
  return edits.length ? edit(...edits) : null;
};

const reach = (state, number) => {
  const same = (week) => week && !week.closed && week.phase === state.weeks[number - 1].phase && week.number > state.over;
  let low = number, high = number;
  while (same(state.weeks[low - 2]) && same(state.weeks[low - 3])) low -= 1;
  while (same(state.weeks[high])) high += 1;
  return [low, high];
};

export const Borders = ({ state, w }) => {
  const [held, setHeld] = useState(null); // {from, to}
  const put = (number, to) => { setHeld(null); if (to !== number) ask(state, to, number); };
  const within = (number, to) => { const [low, high] = reach(state, number); return Math.max(low, Math.min(high, to)); };
  const weekOf = (number, day) => within(number, Math.round((Date.parse(day) - Date.parse(state.first)) / 6048e5) + 1);
  const pull = (event, number) => {
    event.stopPropagation();
    let to = number;
    grasp(event, {
      day: state.weeks[number - 1].monday, w, state,
      over: (day) => { to = weekOf(number, day); setHeld({ from: number, to }); },
      end: () => put(number, to), leave: () => setHeld(null),
    });
  };
  const keys = (event, number) => {
    const to = held?.from === number ? held.to : number;
    if (STEPS[event.key]) setHeld({ from: number, to: within(number, to + STEPS[event.key]) });
    else if (event.key === "Enter" && held) put(number, to);
    else if (event.key === "Escape" && held) setHeld(null);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const words = (number) => `A block begins in week ${number}, ${brief(shifted(state.first, 7 * (number - 1)))}`;
  return html`<div class="borders">${free(state).map((number) => {
    const at = held?.from === number ? held.to : number, [low, high] = reach(state, number);
    return html`<span key=${number} role="slider" tabindex="0" class=${`border${held?.from === number ? " up" : ""}${state.borders.begin.includes(number) ? " asked" : ""}`} aria-label="Border between blocks" aria-orientation="horizontal"
      aria-valuemin=${low} aria-valuemax=${high} aria-valuenow=${at} aria-valuetext=${words(at)} title=${`${words(at)}; pull it to another week`} style=${{ left: `calc(var(--label) + var(--w) * ${at - 1})` }}
      onPointerDown=${(event) => pull(event, number)} onKeyDown=${(event) => keys(event, number)} onBlur=${() => held?.from === number && setHeld(null)}>${held?.from === number && html`<b>${`week ${at}, ${brief(shifted(state.first, 7 * (at - 1)))}`}</b>`}</span>`;
  })}</div>`;
};
