import { useState } from "preact/hooks";
import { said, shifted } from "../dates.js";
import { html } from "../html.js";
import { look } from "../store.js";
import { edit } from "../talk.js";
import { MatchFields, RANKS } from "./match_fields.js";

const EMPTY = { opponent: "", competition: "", kickoff: "", venue: "", travel: 0, priority: "low", date: "" };

const draftOf = ({ from, date }) => (from
  ? { ...EMPTY, ...from, kickoff: (from.kickoff || "").slice(0, 5), travel: from.travel_hours || 0, date: "" }
  : { ...EMPTY, date: date || "" });

// A new match, or one that waits for a date.
export const AddMatch = ({ state, chosen }) => {
  const [draft, setDraft] = useState(draftOf(chosen));
  const set = (patch) => setDraft({ ...draft, ...patch });
  const add = async (event) => {
    event.preventDefault();
    const more = draft.kickoff ? { kickoff: draft.kickoff } : {};
    const { date, priority, opponent, competition, venue } = draft;
    const made = { edit: "add", date, priority, opponent, competition, venue, travel_hours: Number(draft.travel), ...more };
    if (await edit(made)) look({ chosen: { kind: "match", date } });
  };
  return html`<h3>${chosen.from ? html`A date for <bdi>${chosen.from.name}</bdi>` : "Add a match"}</h3>
    ${chosen.from && html`<p class="soft">It was on ${said(chosen.from.was)}.</p>`}
    <form onSubmit=${add}><fieldset><legend>The match</legend>
      <label>Date <input type="date" name="date" required min=${state.first} max=${shifted(state.first, 7 * state.weeks.length - 1)} value=${draft.date} onInput=${(event) => set({ date: event.target.value })} /></label>
      <label>Priority <select name="priority" value=${draft.priority} onChange=${(event) => set({ priority: event.target.value })}>${RANKS.map(([value, words]) => html`<option key=${value} value=${value}>${words}</option>`)}</select></label>
      <${MatchFields} draft=${draft} set=${set} />
      <button class="main">Add</button>
    </fieldset></form>`;
};
