// A break: a stretch of days without training, with little of it, or of another kind; all can be changed.
import { useState } from "preact/hooks";
import { shifted } from "../dates.js";
import { html } from "../html.js";
import { look } from "../store.js";
import { edit } from "../talk.js";

const KINDS = [
  ["rest", "Rest", "no training at all"],
  ["exams", "Exams", "at most so many sessions a week"],
  ["camp", "Camp", "trained as usual, marked on the calendar"],
  ["bye", "Bye", "no match; trained as usual, marked on the calendar"],
];
const EXAMS = 2;

export const breakName = (item) => item.note || KINDS.find(([kind]) => kind === item.kind)[1];

const key = ({ kind, first, last }) => ({ kind, first, last });
const made = (draft) => ({ edit: "add_break", ...key(draft), note: draft.note, ...(draft.kind === "exams" ? { sessions: Number(draft.sessions ?? EXAMS) } : {}) });

export const Break = ({ state, chosen }) => {
  const old = chosen.old;
  const [draft, setDraft] = useState(old || { kind: "rest", note: "", sessions: null, ...chosen.days });
  const set = (patch) => setDraft({ ...draft, ...patch });
  const ends = shifted(state.first, 7 * state.weeks.length - 1);
  const bounds = old ? {} : { min: state.first, max: ends };
  const gone = old && { edit: "drop_break", ...key(old) };
  const asked = (edits) => async (event) => {
    event.preventDefault();
    if (await edit(...edits)) look({ chosen: null });
  };
  const changed = !old || ["kind", "first", "last", "note", "sessions"].some((name) => draft[name] !== old[name]);
  return html`<h3>${old ? html`<bdi>${breakName(old)}</bdi>` : "Add a break"}</h3>
    <form onSubmit=${asked([...(gone ? [gone] : []), made(draft)])}>
      <fieldset><legend>What it is</legend>
        <div class="choices" role="group" aria-label="Kind of break">${KINDS.map(([kind, name]) => html`<button key=${kind} type="button" aria-pressed=${draft.kind === kind} onClick=${() => set({ kind })}>${name}</button>`)}</div>
        <p class="hint">${KINDS.find(([kind]) => kind === draft.kind)[2]}</p>
        ${draft.kind === "exams" && html`<label class="short">Sessions a week at most <input type="number" name="sessions" min="0" max="10" required value=${draft.sessions ?? EXAMS} onInput=${(event) => set({ sessions: event.target.value })} /></label>`}
        <label>First day <input type="date" name="first" required ...${bounds} value=${draft.first} onInput=${(event) => set({ first: event.target.value })} /></label>
        <label>Last day <input type="date" name="last" required min=${draft.first} max=${bounds.max} value=${draft.last} onInput=${(event) => set({ last: event.target.value })} /></label>
        <label>A few words <input name="note" maxlength="200" value=${draft.note} onInput=${(event) => set({ note: event.target.value })} /></label>
      </fieldset>
      <div class="row"><button class="main" disabled=${!changed}>${old ? "Change" : "Add"}</button>
      ${gone && html`<button type="button" onClick=${asked([gone])}>Take it out</button>`}</div>
    </form>`;
};
