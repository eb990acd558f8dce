import { brief, told } from "../dates.js";
import { html } from "../html.js";
import { look } from "../store.js";
import { act } from "../talk.js";

const value = (at) => (at === null ? "none" : html`${at.ready.toFixed(1)} <small>of ${at.target}</small>`);
const signed = (number) => (!number ? "" : `${number > 0 ? "+" : "\u2212"}${Math.abs(number).toFixed(1)}`);

const Peaks = ({ state }) => state.peaks.length > 0 && html`<table id="peaks">
  <caption>Matches that matter: planned readiness, of the target. A difference is told where it is larger than what the searches may have missed.</caption>
  <thead><tr><th scope="col">Match</th><th scope="col" class="n">On file</th><th scope="col" class="n">Now</th><th scope="col" class="n"><span class="quiet">Difference</span></th></tr></thead>
  <tbody>${state.peaks.map((peak) => html`<tr key=${peak.date + peak.name}>
    <th scope="row">${peak.sign} <bdi>${peak.name}</bdi> <small>${brief(peak.date)}</small></th>
    <td class="n">${value(peak.was)}</td><td class="n">${peak.gone ? "not played" : value(peak.now)}</td><td class="n">${signed(peak.by)}</td>
  </tr>`)}</tbody>
</table>`;

export const Changes = ({ state }) => html`
  <h3>Changes made</h3>
  ${!state.edits.length && html`<p class="hint">None yet. Choose a match, a cell or a week on the board, or a rule.</p>`}
  <ol id="edits">${state.edits.map((made) => html`<li key=${made.number}><bdi>${told(made.words)}</bdi>
    <button type="button" class="small" aria-label=${`Take back: ${told(made.words)}`} onClick=${() => act("take-back", { number: made.number })}>Take back</button>${made.did && html`<small class="did">${made.did}</small>`}</li>`)}</ol>
  <p class="hint">Nothing is written until you save; then the matches, the rules and the plan go into <bdi>${state.folder}</bdi> once the search has ended.</p>
  ${state.changes.length > 0 || state.peaks.length > 0 ? html`<h3>Difference</h3><${Peaks} state=${state} />` : ""}
  ${state.changes.length > 0 && html`<h3>Weeks that change</h3><ul id="changes">${state.changes.map((week) => html`<li key=${week.week}><button type="button" class="plain" onClick=${() => look({ chosen: { kind: "week", week: week.week } })}>Week ${week.week}</button> (${brief(week.monday)}): ${week.parts.join("; ")}</li>`)}</ul>`}
  ${state.edits.length > 0 && state.stale && html`<p class="hint">There is no plan for these changes yet.</p>`}
  ${state.edits.length > 0 && !state.stale && !state.changes.length && html`<p class="hint">The plan is the same in every week.</p>`}
  <button type="button" class="small" onClick=${() => act("take-in")}>Read the files again</button>`;
