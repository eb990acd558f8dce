import { html } from "../html.js";
import { rove, stop } from "../roving.js";
import { choose } from "../store.js";
import { brief } from "../dates.js";
import { Row } from "./row.js";
import { at, span } from "./scale.js";

const stretches = (weeks) => {
  const found = [];
  for (const week of weeks) {
    if (found.at(-1)?.phase === week.phase) found.at(-1).weeks += 1;
    else found.push({ phase: week.phase, first: week.number, weeks: 1 });
  }
  return found;
};

// Pixels that a phase's name takes, and that of a break.
const NAME = 76, SIGN = 6.5;
const called = (part, w) => (part.weeks * w >= NAME ? part.phase : part.phase.split("-")[0]);

export const Phases = ({ state, w }) => html`<${Row} name="Phase" kind="phases">
  ${stretches(state.weeks).map((part) => html`<span key=${part.first} class=${`phase ${part.phase}`} style=${span(part.first - 1, part.weeks)}title=${part.phase}>${called(part, w)}</span>`)}
<//>`;

// Breaks by name; one that lasts over several weeks is one bar.
export const Breaks = ({ state, w, chosen }) => {
  const found = new Map();
  for (const week of state.weeks) for (const item of week.breaks) found.set(JSON.stringify(item), item);
  if (!found.size) return null;
  const end = state.weeks.length;
  return html`<${Row} name="Breaks" kind="breaks"><div role="toolbar" aria-label="Breaks" onKeyDown=${rove}>
    ${[...found.values()].map((item, index) => {
      const from = Math.max(0, at(state, item.first));
      const to = Math.min(end, at(state, item.last) + 1 / 7);
      const words = `${item.kind}${item.note ? `: ${item.note}` : ""}`;
      const days = `${words}, ${brief(item.first)} to ${brief(item.last)}`;
      return html`<button key=${`${item.kind} ${item.first}`} type="button" class=${`break ${item.kind}`} style=${span(from, to - from)} title=${days} aria-label=${days}
        aria-pressed=${chosen?.kind === "break" && JSON.stringify(chosen.old) === JSON.stringify(item)} ...${stop(!index)} onClick=${() => choose({ kind: "break", old: item })}>${(to - from) * w >= SIGN * item.kind.length + 12 ? words : ""}</button>`;
    })}</div>
  <//>`;
};
