// How the season stands: its score, and what is planned for the matches that matter most.
import { brief } from "./dates.js";
import { html } from "./html.js";
import { choose } from "./store.js";

const MOST = 4;
const value = (number) => (number === null ? "none" : number.toFixed(1));

// Every figure has the other beside it; which is better is left to the table of matches, whose
// differences are told only where the searches can tell them.
const Score = ({ state }) => {
  const [whole, ...parts] = state.scores;
  if (!whole) return null;
  const was = state.edits.length > 0 && whole.now !== null && whole.was !== null;
  return html`<div class="tile" title="How much of the readiness target the plan reaches, weighed by how much each match matters">
    <dt>${whole.name}${whole.now === null ? ", of the plan on file" : state.provisional ? ", provisional" : ""}</dt>
    <dd><b>${value(whole.now ?? whole.was)}</b> <small>of 100${was ? `, on file ${value(whole.was)}` : ""}</small></dd>
    <dd class="parts">${parts.map((row) => `${row.name.replace(/At | matches/g, "")} ${value(row.now ?? row.was)}`).join(" \u00b7 ")}</dd>
  </div>`;
};

const weighty = (state) => {
  const rank = { peak: 0, high: 1 };
  return state.fixtures
    .filter((match) => match.priority in rank && match.ready !== null && match.ready !== undefined && match.week > state.over)
    .sort((a, b) => rank[a.priority] - rank[b.priority] || a.date.localeCompare(b.date))
    .slice(0, MOST)
    .sort((a, b) => a.date.localeCompare(b.date));
};

const Peak = ({ match }) => html`<div class="tile peak-tile">
  <dt><span class="sign" aria-hidden="true">${match.sign}</span> <button type="button" class="plain" onClick=${() => choose({ kind: "match", date: match.date })}><bdi>${match.name}</bdi></button></dt>
  <dd><b>${match.ready.toFixed(0)}</b> <small>planned, target ${match.target}</small></dd>
  <dd class="parts">${brief(match.date)}, ${match.priority}</dd>
  <span class="gauge" aria-hidden="true"><i style=${{ width: `${Math.max(0, Math.min(100, match.ready))}%` }}></i><u style=${{ left: `${match.target}%` }}></u></span>
</div>`;

export const Scores = ({ state }) => html`<dl class="tiles" aria-label="How the season stands">
  <${Score} state=${state} />
  ${weighty(state).map((match) => html`<${Peak} key=${match.date} match=${match} />`)}
</dl>
${state.headline && html`<p class="headline"><span>What the changes do</span> <b id="headline">${state.headline}</b></p>`}`;
