// The squad: names and masses typed or pasted, or a file; without it there are no cards.
import { useState } from "preact/hooks";
import { html } from "../html.js";
import { act, exported } from "../talk.js";

const COLUMNS = "name, group (starters, squad, non-playing or returning), body_mass_kg, and what was tested, such as squat_1rm_kg or split_10_m_s";

const Enlist = ({ state }) => {
  const [lines, setLines] = useState("");
  const add = async (event) => {
    event.preventDefault();
    if (await act("enlist", { lines, file: "" })) setLines("");
  };
  const taken = async (event) => {
    const [file] = event.target.files;
    if (file) await act("enlist", { lines: "", file: await file.text() });
    event.target.value = "";
  };
  return html`<form onSubmit=${add}>
    <label>Athletes, one a line: name, body mass in kg <textarea name="athletes" rows="4" required placeholder="Anna Berg, 64" value=${lines} onInput=${(event) => setLines(event.target.value)}></textarea></label>
    <div class="row"><button>Add to the squad</button></div>
  </form>
  <label>Or a whole squad file (.csv)${state.squad > 0 && ", in the place of this one"} <input type="file" accept=".csv,text/csv" onChange=${taken} /></label>
  <p class="hint">Its columns: ${COLUMNS}.</p>`;
};

const Cards = ({ state }) => {
  const open = state.weeks.filter((week) => !week.closed && week.planned);
  const next = open.find((week) => week.number > state.over) || open[0];
  const [week, setWeek] = useState(next?.number);
  if (!next) return null;
  return html`<div class="row"><label class="short">Week <select value=${week} onChange=${(event) => setWeek(Number(event.target.value))}>${open.map((each) => html`<option key=${each.number} value=${each.number}>${each.number}</option>`)}</select></label>
    <a href=${exported("cards", week)} target="_blank" rel="noopener">Session cards of week ${week} (PDF)</a></div>`;
};

export const Squad = ({ state }) => html`<h3>Squad and session cards</h3>
  ${state.squad === null && html`<p class="hint">This season names no squad, so there are no cards; seasons made here have one.</p>`}
  ${state.squad === 0 && html`<p>Cards need the squad.</p>`}
  ${state.squad > 0 && html`<p>${state.squad} athlete${state.squad > 1 ? "s" : ""}.</p><${Cards} state=${state} />`}
  ${state.squad !== null && state.versions.length > 0 && html`<details open=${state.squad === 0}><summary>${state.squad ? "Change the squad" : "Enter it"}</summary><${Enlist} state=${state} /></details>`}`;
