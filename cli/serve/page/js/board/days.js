// Days of the weeks in sight: small stacks of what is on them by month, hours by week.
import { apart, shifted, weekday } from "../dates.js";
import { html } from "../html.js";
import { act } from "../talk.js";
import { useDays } from "./days_asked.js";
import { grasp } from "./drag.js";
import { Row } from "./row.js";
import { span } from "./scale.js";

const HOUR = 38, FIRST = 9, LAST = 17, TALL = 210;

const minutes = (time) => { const [hour, minute] = time.split(":").map(Number); return 60 * hour + minute; };

export const dayThings = (day, kickoffs = {}) => [
  ...day.sessions.map((each) => ({ kind: each.place, time: each.start, minutes: each.minutes, words: `${each.place} ${each.minutes} min: ${each.codes.join(", ")}` })),
  ...(day.practice ? [{ kind: "practice", time: day.practice.start, minutes: day.practice.minutes, words: `practice${day.practice.minutes ? ` ${day.practice.minutes} min` : ""}` }] : []),
  ...(day.match !== null ? [{ kind: "match", time: kickoffs[day.date]?.kickoff || "", minutes: kickoffs[day.date]?.minutes || 90, words: `match ${day.match}` }] : []),
].sort((a, b) => (a.time || "99").localeCompare(b.time || "99"));

export const kickoffsOf = (state) => Object.fromEntries(state.fixtures.map((match) => [match.date, match]));
const spanOf = (number, index) => span(number - 1 + index / 7, 1 / 7);

const Waits = ({ state, found }) => state.weeks.filter((week) => week.planned && !week.closed && !found[week.number]?.length)
  .map((week) => html`<span key=${week.number} class="waits" style=${span(week.number - 1, 1)}>${"\u2026"}</span>`);

// By month: what is on each day, as high as it is long.
const Stack = ({ day, kickoffs }) => html`<span class="stack">${dayThings(day, kickoffs).map((thing, at) => html`<i key=${at} class=${`at-${thing.kind}`} style=${{ height: `${Math.round((34 * Math.min(thing.minutes || 60, TALL)) / TALL) + 4}px` }} title=${`${thing.time} ${thing.words}`.trim()}></i>`)}</span>`;

const told = (week) => [week.sessions.field && `${week.sessions.field} field`, week.sessions.gym && `${week.sessions.gym} gym`].filter(Boolean).join(", ");

export const Sessions = ({ state }) => {
  const found = useDays(state), kickoffs = kickoffsOf(state);
  return html`<${Row} name=${html`Sessions<small>field, gym</small>`} kind="sessions">
    ${state.weeks.filter((week) => week.planned).map((week) => html`<span key=${`t${week.number}`} class="told" style=${span(week.number - 1, 1)}>${told(week) || "none"}</span>`)}
    ${Object.entries(found).flatMap(([number, days]) => days.map((day, index) => html`<span key=${day.date} class="in-month" style=${spanOf(number, index)}><${Stack} day=${day} kickoffs=${kickoffs} /><small>${weekday(day.date).slice(0, 1)}</small></span>`))}
  <//>`;
};

// By week: hours from top to bottom.
const LINES = 29; // pixels from which two lines of words fit
const MOVES = ["field", "gym", "practice"];

// A session is pulled to another day of its week; all else of the week is laid out around it.
const pulled = (event, state, number, index, thing) => {
  if (!MOVES.includes(thing.kind) || !state.versions.length || state.weeks[number - 1].over) return;
  const node = event.currentTarget, day = shifted(state.weeks[number - 1].monday, index);
  const w = Number(document.querySelector(".sheet").dataset.w);
  const within = (date) => Math.max(0, Math.min(6, index + apart(day, date)));
  const leave = () => { node.style.transform = ""; node.classList.remove("up"); };
  grasp(event, {
    day, w, state, leave,
    over: (date) => { node.classList.add("up"); node.style.transform = `translateX(${((within(date) - index) * w) / 7}px)`; },
    end: (date) => { leave(); const to = within(date); if (to !== index) act("place", { week: number, shift: { thing: thing.kind, day: index, to } }); },
  });
};

const Block = ({ thing, first, pull }) => {
  const height = Math.max(18, ((thing.minutes || 60) * HOUR) / 60 - 1);
  return html`<li class=${`at-${thing.kind}${height < LINES ? " short" : ""}`} style=${{ top: `${((minutes(thing.time) - 60 * first) * HOUR) / 60}px`, height: `${height}px` }} title=${`${thing.time} ${thing.words}`} onPointerDown=${pull}><b>${thing.time}</b> ${thing.words}</li>`;
};

const Day = ({ state, number, index, day, kickoffs, first }) => {
  const things = dayThings(day, kickoffs), loose = things.filter((thing) => !thing.time);
  return html`<div class="day" style=${spanOf(number, index)}>
    <span class="day-name">${weekday(day.date)} ${Number(day.date.slice(8))} <i>${day.label}</i></span>
    <ul class="hours">${things.filter((thing) => thing.time).map((thing, at) => html`<${Block} key=${at} thing=${thing} first=${first} pull=${(event) => pulled(event, state, number, index, thing)} />`)}</ul>
    ${loose.length > 0 && html`<ul class="loose">${loose.map((thing, at) => html`<li key=${at} class=${`at-${thing.kind}`}>${thing.words}</li>`)}</ul>`}
  </div>`;
};

export const Days = ({ state }) => {
  const found = useDays(state), kickoffs = kickoffsOf(state);
  const things = Object.values(found).flat().flatMap((day) => dayThings(day, kickoffs)).filter((thing) => thing.time);
  const first = Math.min(FIRST, ...things.map((thing) => Math.floor(minutes(thing.time) / 60)));
  const last = Math.max(LAST, ...things.map((thing) => Math.ceil((minutes(thing.time) + (thing.minutes || 60)) / 60)));
  const hours = Array.from({ length: last - first + 1 }, (_, at) => first + at);
  return html`<${Row} kind="days" style=${{ "--hours": `${(last - first) * HOUR}px`, "--hour": `${HOUR}px` }}
    name=${html`Days${hours.filter((hour) => (hour - first) % 2 === 0).map((hour) => html`<span key=${hour} class="hour" style=${{ top: `${(hour - first) * HOUR + 24}px` }} aria-hidden="true">${String(hour).padStart(2, "0")}:00</span>`)}`}>
    <${Waits} state=${state} found=${found} />
    ${Object.entries(found).flatMap(([number, days]) => days.map((day, index) => html`<${Day} key=${day.date} state=${state} number=${number} index=${index} day=${day} kickoffs=${kickoffs} first=${first} />`))}
  <//>`;
};
