// What was done on a day of the week: written into the folder's own file at once.
import { useState } from "preact/hooks";
import { said, shifted } from "../dates.js";
import { html } from "../html.js";
import { act } from "../talk.js";

const DOSES = [["", "by minutes and rating"], ["none", "missed"], ["touch", "touch"], ["reduced", "reduced"], ["full", "full"]];

export const Done = ({ state, week }) => {
  const days = [0, 1, 2, 3, 4, 5, 6].map((by) => shifted(week.monday, by)).filter((day) => day <= state.today);
  const [cells, setCells] = useState({ date: days[0], what: state.qualities[0].key, dose: "none", minutes: "", rpe: "" });
  const set = (name) => (event) => setCells({ ...cells, [name]: event.target.value });
  if (!days.length) return null;
  const counted = ["practice", "match"].includes(cells.what) || !cells.dose;
  const send = (event) => {
    event.preventDefault();
    const { dose, ...others } = cells;
    act("record", { cells: counted ? others : { date: cells.date, what: cells.what, dose } });
  };
  return html`<form onSubmit=${send}><fieldset><legend>Record what was done</legend>
    <label>Day <select value=${cells.date} onChange=${set("date")}>${days.map((day) => html`<option key=${day} value=${day}>${said(day)}</option>`)}</select></label>
    <label>What <select value=${cells.what} onChange=${set("what")}>${[...state.qualities.map((each) => [each.key, each.name]), ["practice", "Team practice"], ["match", "Match"]].map(([key, name]) => html`<option key=${key} value=${key}>${name}</option>`)}</select></label>
    ${!["practice", "match"].includes(cells.what) && html`<label>How much <select value=${cells.dose} onChange=${set("dose")}>${DOSES.map(([key, name]) => html`<option key=${key} value=${key}>${name}</option>`)}</select></label>`}
    ${counted && html`<label>Minutes <input type="number" min="0" max="600" required value=${cells.minutes} onInput=${set("minutes")} /></label>
    <label>Rating, 0 to 10 <input type="number" min="0" max="10" step="0.5" required value=${cells.rpe} onInput=${set("rpe")} /></label>`}
    <button>Record</button>
    <p class="hint">For the squad; what is not recorded counts as planned. Undo takes a record back.</p>
  </fieldset></form>`;
};
