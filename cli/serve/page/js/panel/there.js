// Who of the squad is there in a week, how far on the way back, and entering it.
import { useState } from "preact/hooks";
import { brief, shifted, weekday } from "../dates.js";
import { html } from "../html.js";
import { act } from "../talk.js";

const FREE = 6;

// The way back as a ladder of stages, the one that stands filled and named.
const Stages = ({ stage, ladder }) => html`<ol class="stages" aria-label=${`Stage ${stage} of ${FREE - 1}`}>
  ${ladder.map((words, level) => html`<li key=${level} class=${level === stage ? "here" : level < stage ? "past" : ""} title=${`Stage ${level}: ${words}`} aria-current=${level === stage ? "step" : undefined}>${level}</li>`)}
</ol>`;

const dayWord = (person, at) => (person.away[at] ? "away" : person.days[at] === 0 ? "out" : person.days[at] < FREE ? `stage ${person.days[at]}` : "there");

const Person = ({ person, ladder, monday }) => html`<li>
  <b><bdi>${person.name}</bdi></b>${person.words && html` <span class="soft">${person.words}</span>`}
  ${person.stage < FREE && html`<${Stages} stage=${person.stage} ladder=${ladder} /><small>${person.stage ? `Stage ${person.stage}${person.since ? ` since ${brief(person.since)}` : ""}: ` : ""}${ladder[person.stage]}.</small>`}
  ${new Set(person.days.map((_, at) => dayWord(person, at))).size > 1 && html`<small>${person.days.map((_, at) => `${weekday(shifted(monday, at))} ${dayWord(person, at)}`).join(", ")}.</small>`}
  ${person.away.every(Boolean) && html`<small>Away all week.</small>`}
  ${person.asks.map((words) => html`<small key=${words}><strong>Ask:</strong> ${words}.</small>`)}
</li>`;

const STATUS = [["out", "out: no work"], ["limited", "on the way back, at a stage"], ["available", "with the squad again"], ["away", "away, not hurt"]];

const Enter = ({ squad, monday }) => {
  const [cells, setCells] = useState({ athlete: squad.names[0], from: monday, to: "", status: "out", stage: "1", limits: "" });
  const set = (name) => (event) => setCells({ ...cells, [name]: event.target.value });
  const send = (event) => {
    event.preventDefault();
    const { stage, to, ...others } = cells;
    act("enter", { cells: { ...others, ...(cells.status === "limited" ? { stage } : {}), ...(cells.status === "away" && to ? { to } : {}) } });
  };
  return html`<details><summary>Enter who may train</summary><form onSubmit=${send}><fieldset><legend>From a day on</legend>
    <label>Athlete <select value=${cells.athlete} onChange=${set("athlete")}>${squad.names.map((name) => html`<option key=${name} value=${name}>${name}</option>`)}</select></label>
    <label>From <input type="date" required value=${cells.from} onInput=${set("from")} /></label>
    <label>Is <select value=${cells.status} onChange=${set("status")}>${STATUS.map(([key, words]) => html`<option key=${key} value=${key}>${words}</option>`)}</select></label>
    ${cells.status === "limited" && html`<label>Stage <select value=${cells.stage} onChange=${set("stage")}>${squad.ladder.map((words, level) => level > 0 && html`<option key=${level} value=${String(level)}>${level}: ${words}</option>`)}</select></label>`}
    ${cells.status === "away" && html`<label>To <input type="date" min=${cells.from} value=${cells.to} onInput=${set("to")} /></label>`}
    ${["out", "limited"].includes(cells.status) && html`<label>What is hurt, or the medical team's words <input list="limits" maxlength="120" value=${cells.limits} onInput=${set("limits")} /></label><datalist id="limits">${squad.limits.map((tag) => html`<option key=${tag} value=${tag}></option>`)}</datalist>`}
    <button>Enter</button>
    <p class="hint">The medical team decides each step; nobody moves on by a date. Undo takes an entry back.</p>
  </fieldset></form></details>`;
};

export const There = ({ squad, week, state }) => squad && html`<h4>Who is there</h4>
  <p>${squad.words}</p>
  ${squad.people.length > 0 && html`<ul class="plain people">${squad.people.map((person) => html`<${Person} key=${person.name} person=${person} ladder=${squad.ladder} monday=${week.monday} />`)}</ul>`}
  ${state.versions.length > 0 && html`<${Enter} squad=${squad} monday=${week.monday} key=${week.number} />`}`;
