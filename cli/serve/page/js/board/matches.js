// Matches: a sign on its day, which can be chosen, dragged and moved by keys; the great ones named.
import { useRef, useState } from "preact/hooks";
import { said, shifted } from "../dates.js";
import { html } from "../html.js";
import { rove, stop } from "../roving.js";
import { choose } from "../store.js";
import { edit } from "../talk.js";
import { grasp, justDragged } from "./drag.js";
import { laned, width } from "./lanes.js";
import { Row } from "./row.js";
import { at, left } from "./scale.js";

const LANE = 19, SIGNS = 24, WIDE = 15, UPRIGHT = 15, TALL = 76, TALLEST = 128, PAPER = 84;
const GREAT = ["peak", "high"];
const STEPS = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -7, ArrowDown: 7 };

export const matchWords = (match) => [match.name, match.competition !== match.name && match.competition, match.priority, said(match.date), match.kickoff, match.venue].filter(Boolean).join(", ");

const inside = (state, day) => day >= state.first && day < shifted(state.first, 7 * state.weeks.length);

const named = (state, w, zoom) => {
  const shown = state.fixtures.map((match) => ({ match, x: at(state, match.date) * w }));
  const great = shown.filter(({ match }) => GREAT.includes(match.priority));
  for (const each of great) Object.assign(each, { words: zoom === "week" && each.match.kickoff ? `${each.match.name} ${each.match.kickoff}` : each.match.name });
  for (const each of great) each.wide = width(each.words);
  const lanes = laned(great, state.weeks.length * w);
  return { great, lanes };
};

// Room for the name of a match that is not great: up to the next one.
const opponents = (state, w) => state.fixtures.map((match, index) => {
  const next = state.fixtures[index + 1];
  const room = ((next ? at(state, next.date) : state.weeks.length) - at(state, match.date)) * w - 22;
  return { match, room };
}).filter(({ match, room }) => room > 40 && !GREAT.includes(match.priority));

// Where a week is narrow the other names stand upright, each where the last one leaves room.
const upright = (state, w) => {
  let end = -Infinity;
  return state.fixtures.filter((match) => !GREAT.includes(match.priority) && match.name).map((match) => ({ match, x: (at(state, match.date) + 0.5 / 7) * w }))
    .filter(({ x }) => x - end >= UPRIGHT && (end = x, true));
};

// Signs of neighbouring days stand above each other where they would overlap.
const stacked = (state, w) => {
  const signs = state.fixtures.map((match) => ({ match, x: (at(state, match.date) + 0.5 / 7) * w, wide: WIDE }));
  const rows = laned(signs, Infinity);
  return { rows, of: Object.fromEntries(signs.map((sign) => [sign.match.date, sign.lane])) };
};

export const Matches = ({ state, w, zoom, chosen, print }) => {
  const tall = print ? PAPER : Math.max(TALL, Math.min(TALLEST, innerHeight / 9, Math.max(...upright(state, w).map(({ match }) => width(match.name) + 6))));
  const [held, setHeld] = useState(null); // {from, to, keys}
  const label = useRef();
  const { great, lanes } = named(state, w, zoom);
  const signs = Math.max(1, lanes) * LANE, { rows, of } = stacked(state, w);
  const put = (keep) => {
    if (keep && held.to !== held.from) edit({ edit: "move", date: held.from, to: held.to });
    setHeld(null);
  };
  const keys = (event, match) => {
    if (event.key.toLowerCase() === "m" && !held) {
      event.preventDefault();
      setHeld({ from: match.date, to: match.date, keys: true });
    } else if (held && event.key in STEPS) {
      event.preventDefault();
      const to = shifted(held.to, STEPS[event.key]);
      if (inside(state, to)) setHeld({ ...held, to });
    } else if (held && event.key === "Enter") {
      event.preventDefault();
      put(true);
    } else if (held && event.key === "Escape") {
      event.preventDefault();
      put(false);
    }
  };
  // the frames of a drag move two things, and draw nothing else anew
  const follow = (node, to) => {
    node.style.left = left(at(state, to) + 0.5 / 7);
    if (!label.current) return;
    label.current.style.left = left(at(state, to));
    label.current.textContent = said(to);
  };
  const pull = (event, match) => {
    const node = event.currentTarget, stood = node.style.left;
    let up = false;
    const rest = () => { node.style.left = stood; setHeld(null); };
    grasp(event, {
      day: match.date, w, state,
      over: (to) => {
        if (!up) setHeld({ from: match.date, to });
        up = true;
        follow(node, to);
      },
      end: (to) => { rest(); if (to !== match.date) edit({ edit: "move", date: match.date, to }); },
      leave: rest,
    });
  };
  // while the plan on file is looked at, a match that was moved lies between its two days
  const place = (match) => {
    if (!match.was || held?.from === match.date) return left(at(state, day(match)) + 0.5 / 7);
    const was = at(state, match.was), now = at(state, match.date);
    return `calc(var(--w) * (${(was + 0.5 / 7).toFixed(4)} + ${(now - was).toFixed(4)} * var(--after, 1)))`;
  };
  const day = (match) => (held?.from === match.date ? held.to : match.date);
  return html`<${Row} name="Matches" kind="matches" style=${{ "--lanes": lanes, height: `${signs + Math.max(1, rows) * SIGNS + (zoom === "season" ? tall : 0)}px` }}>
    ${great.map(({ match, x, left: place, lane, words }) => html`<span key=${match.date} class=${`named ${match.priority}`} aria-hidden="true"
      style=${{ left: `${place}px`, top: `${lane * LANE}px` }} title=${matchWords(match)}>${words}</span>
      <span key=${`${match.date}-line`} class="leader" aria-hidden="true" style=${{ left: `${x + 0.5 * w / 7}px`, top: `${lane * LANE + 17}px`, height: `${signs - lane * LANE - 15}px` }}></span>`)}
    ${zoom !== "season" && opponents(state, w).map(({ match, room }) => html`<span key=${`${match.date}-name`} class="opponent" aria-hidden="true" style=${{ left: left(at(state, match.date) + 0.5 / 7), top: `${signs}px`, maxWidth: `${room}px` }}>${match.name}${zoom === "week" && match.kickoff ? ` ${match.kickoff}` : ""}</span>`)}
    ${zoom === "season" && upright(state, w).map(({ match, x }) => html`<span key=${`${match.date}-name`} class="upright" aria-hidden="true" style=${{ left: `${x}px`, top: `${signs + rows * SIGNS}px`, height: `${tall - 4}px` }} title=${matchWords(match)}>${match.name}</span>`)}
    <div class="signs" role="toolbar" aria-label="Matches" onKeyDown=${held ? undefined : rove}>
    ${state.fixtures.map((match, index) => html`<button key=${match.date} type="button" data-date=${match.date}
      class=${`match ${match.priority}${match.new ? " new" : ""}${held?.from === match.date ? " up" : ""}`}
      style=${{ left: place(match), top: `${signs + of[match.date] * SIGNS}px` }} title=${matchWords(match)} aria-label=${`${matchWords(match)}${match.new ? ", changed" : ""}`}
      aria-pressed=${chosen?.kind === "match" && chosen.date === match.date} ...${stop(!index)}
      onPointerDown=${(event) => pull(event, match)} onKeyDown=${(event) => keys(event, match)} onBlur=${() => held?.keys && held.from === match.date && put(false)}
      onClick=${() => !held && !justDragged() && choose({ kind: "match", date: match.date })}>${match.sign}</button>`)}
    </div>
    ${held && html`<span ref=${label} class="held" role="status" style=${{ left: left(at(state, held.to)), top: `${signs - 20}px` }}>${said(held.to)}</span>`}
  <//>`;
};
