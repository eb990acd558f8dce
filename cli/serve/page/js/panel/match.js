// A match: when, against whom, how much it matters, and whether it is played.
import { useState } from "preact/hooks";
import { said, shifted, whole } from "../dates.js";
import { html } from "../html.js";
import { look } from "../store.js";
import { edit } from "../talk.js";
import { MatchFields, RANKS } from "./match_fields.js";

const moved = async (match, to) => {
  if (await edit({ edit: "move", date: match.date, to })) look({ chosen: { kind: "match", date: to } });
};

const described = (match, draft) => {
  const changed = {};
  for (const key of ["opponent", "competition", "venue"]) if (draft[key] !== match[key]) changed[key] = draft[key];
  if ((draft.kickoff || null) !== match.kickoff && draft.kickoff) changed.kickoff = draft.kickoff;
  if (Number(draft.travel) !== match.travel) changed.travel_hours = Number(draft.travel);
  return changed;
};

const STEPS = [[-7, "A week earlier"], [-1, "A day earlier"], [1, "A day later"], [7, "A week later"]];

export const Match = ({ state, chosen }) => {
  const match = state.fixtures.find((each) => each.date === chosen.date);
  const [draft, setDraft] = useState(match || {});
  const [to, setTo] = useState(chosen.date);
  if (!match) return html`<p class="hint">That match is no longer there.</p>`;
  const changed = described(match, draft);
  const last = shifted(state.first, 7 * state.weeks.length - 1);
  return html`
    <h3>${match.sign} <bdi>${match.name}</bdi></h3>
    <p class="soft">${whole(match.date)}${match.was && `, on file ${said(match.was)}`}. Week ${match.week}${match.ready !== null && match.ready !== undefined ? `: planned readiness ${match.ready.toFixed(1)}, target ${match.target}` : ""}.</p>
    <fieldset><legend>How much it matters</legend>
      <div class="choices" role="group" aria-label="Priority">${RANKS.map(([rank, words]) => html`<button key=${rank} type="button" aria-pressed=${match.priority === rank} onClick=${() => match.priority !== rank && edit({ edit: "rank", date: match.date, priority: rank })}>${words}</button>`)}</div>
    </fieldset>
    <fieldset><legend>When it is played</legend>
      <div class="choices">${STEPS.map(([by, words]) => html`<button key=${by} type="button" disabled=${shifted(match.date, by) < state.first || shifted(match.date, by) > last} onClick=${() => moved(match, shifted(match.date, by))}>${words}</button>`)}</div>
      <form class="row" onSubmit=${(event) => { event.preventDefault(); moved(match, to); }}>
        <label>On another day <input type="date" name="to" min=${state.first} max=${last} value=${to} required onInput=${(event) => setTo(event.target.value)} /></label>
        <button disabled=${to === match.date}>Move</button>
      </form>
      <button type="button" onClick=${() => edit({ edit: "drop", date: match.date })}>Postponed without a date, or not played</button>
      <p class="hint">A match without a date waits below the board until it has one.</p>
    </fieldset>
    <form onSubmit=${(event) => { event.preventDefault(); edit({ edit: "describe", date: match.date, ...changed }); }}>
      <fieldset><legend>What is known of it</legend>
        <${MatchFields} draft=${draft} set=${(patch) => setDraft({ ...draft, ...patch })} />
        <button disabled=${!Object.keys(changed).length}>Change</button>
      </fieldset>
    </form>`;
};
