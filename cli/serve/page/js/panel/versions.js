// Versions put aside to be compared, plans from least change to best, and the folder's history.
import { useState } from "preact/hooks";
import { brief, moment } from "../dates.js";
import { html } from "../html.js";
import { act } from "../talk.js";

const value = (number) => (number === null ? "none" : number.toFixed(1));

// The plans in a row, from the one that changes least to the best: a slider goes along them.
const Ways = ({ ways }) => {
  const [at, setAt] = useState(0);
  const here = ways[Math.min(at, ways.length - 1)];
  return html`<div class="answer">
    ${ways.length > 1 && html`<label>From least change to best <input type="range" min="0" max=${ways.length - 1} step="1" value=${at} aria-valuetext=${here.words} onInput=${(event) => setAt(Number(event.target.value))} /></label>`}
    <p><b>Plan ${here.letter}</b>: ${here.words}; ${here.cells} cell${here.cells === 1 ? "" : "s"} changed${here.match !== null ? `, match score ${value(here.match)}` : ""}.</p>
    <ul>${here.peaks.map((peak) => html`<li key=${peak.name}><bdi>${peak.name}</bdi>: planned readiness ${value(peak.ready)}</li>`)}</ul>
    ${here.forced > 0 && html`<p>What was done leaves no way to keep ${here.forced} of the rules' limits.</p>`}
    <details><summary>What changes</summary><ul>${here.changes.map((week) => html`<li key=${week.week}>Week ${week.week} (${brief(week.monday)}): ${week.parts.join("; ")}</li>`)}</ul></details>
    <button type="button" class="main" onClick=${() => act("take-way", { letter: here.letter })}>Take plan ${here.letter}</button>
  </div>`;
};

const History = ({ state }) => state.versions.length > 0 && html`<h3>History of the folder</h3>
  <ol class="history">${state.versions.map((each) => html`<li key=${each.number} value=${each.number}>
    <b>${each.name || each.action}</b> <bdi>${each.words}</bdi> <small>${moment(each.at)}</small>
    ${each.stands ? html`<span class="soft"> stands</span>` : html` <button type="button" class="small" aria-label=${`Put version ${each.number} in force`} onClick=${() => act("restore", { number: each.number })}>Put in force</button>`}
  </li>`)}</ol>`;

export const Versions = ({ state }) => {
  const [name, setName] = useState("");
  const keep = (event) => { event.preventDefault(); act("keep", { name }); setName(""); };
  return html`<h3>Side by side</h3>
    <form class="row" onSubmit=${keep}><label>Keep what is shown as <input name="keep" maxlength="60" value=${name} placeholder="such as: without the cup" onInput=${(event) => setName(event.target.value)} /></label><button disabled=${state.stale}>Keep</button></form>
    <p class="hint">${state.kept.length ? "They stand side by side below the board." : "Keep a version under a name, change more, and set them side by side."}</p>
    <h3>${state.over > 0 ? "Plan on from here" : "Little change, or the best"}</h3>
    <p class="hint">${state.over > 0 ? `${state.over} weeks are over and stand as they were done. ` : ""}From the plan that changes the fewest cells to the best one.</p>
    <button type="button" disabled=${Boolean(state.asking)} onClick=${() => act("ways")}>Look for them</button>
    ${state.answer?.about === "ways" && html`<${Ways} ways=${state.answer.ways} />`}
    <${History} state=${state} />`;
};
