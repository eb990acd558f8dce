// Where a season begins: a fixture list, a season of this directory, or a demo.
import { useState } from "preact/hooks";
import { brief, moment } from "../dates.js";
import { html } from "../html.js";
import { look } from "../store.js";
import { act, fetched } from "../talk.js";
import { Trouble } from "../trouble.js";
import { Draft } from "./draft.js";

const take = async (file) => {
  if (!file) return;
  const found = await fetched(`list?name=${encodeURIComponent(file.name)}`, file);
  if (found) look({ draft: { found, file: file.name } });
};

const Drop = () => {
  const [over, setOver] = useState(false);
  const stop = (event, on) => { event.preventDefault(); setOver(on); };
  return html`<label class=${`drop${over ? " over" : ""}`} onDragOver=${(event) => stop(event, true)} onDragLeave=${(event) => stop(event, false)}
    onDrop=${(event) => { stop(event, false); take(event.dataTransfer.files[0]); }}>
    <strong>Drop a fixture list here, or choose a file</strong>
    <span>A spreadsheet (.xlsx, .ods), a table (.csv) or a calendar (.ics), as the league or the club has it.</span>
    <input type="file" accept=".csv,.xlsx,.ods,.ics" onChange=${(event) => { take(event.target.files[0]); event.target.value = ""; }} />
  </label>`;
};

const season = (row) => [row.sport, `${row.weeks} weeks from ${brief(row.first)}`, row.planned && "planned"].filter(Boolean).join(", ");

const Rows = ({ rows, action, more }) => html`<ul class="seasons">${rows.map((row) => html`<li key=${row.path}>
  <button type="button" onClick=${() => act(action, { path: row.path })}><b><bdi>${row.name}</bdi></b><span>${season(row)}</span>${more && html`<small>${row.path}, changed ${moment(row.changed)}</small>`}</button>
</li>`)}</ul>`;

const Folder = ({ state }) => {
  const [place, setPlace] = useState(state.folder);
  return html`<form class="row" onSubmit=${(event) => { event.preventDefault(); act("look", { folder: place }); }}>
    <label>Folder with seasons <input name="folder" value=${place} onInput=${(event) => setPlace(event.target.value)} /></label><button>Look there</button>
  </form>`;
};

export const Start = ({ state, ui }) => html`<header class="start-head"><h1>${ui.draft ? "A new season" : "Seasonwright"}</h1>${!ui.draft && html`<p class="soft">Plan a strength-and-conditioning season around the fixtures, and see how good the plan is.</p>`}</header>
  <${Trouble} ui=${ui} />
  <main id="main" class="start" tabindex="-1">
    ${ui.draft ? html`<${Draft} draft=${ui.draft} state=${state} key=${ui.draft.file} />` : html`
    <section aria-labelledby="begin"><h2 id="begin">Begin with the matches</h2><${Drop} />
      <p class="hint">Nothing leaves this machine. You see what was read before anything is written.</p></section>
    <section aria-labelledby="open"><h2 id="open">Open a season</h2>
      ${state.seasons.length > 0 ? html`<${Rows} rows=${state.seasons} action="open" more />` : html`<p class="hint">There is none in this folder yet.</p>`}
      <${Folder} state=${state} key=${state.folder} /></section>
    ${state.demos.length > 0 && html`<section aria-labelledby="demos"><h2 id="demos">Look at a demo season</h2>
      <p class="hint">Invented clubs. A copy is put in the folder above, to be changed as you like.</p>
      <${Rows} rows=${state.demos} action="demo" /></section>`}`}
  </main>
  <footer class="start-foot"><p>A planning aid, not medical advice: work under qualified supervision and after medical clearance.</p></footer>`;
