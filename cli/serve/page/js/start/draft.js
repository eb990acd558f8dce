// A fixture list that was read: what it says, what is proposed, and the season it becomes.
import { useState } from "preact/hooks";
import { brief, said, told } from "../dates.js";
import { html } from "../html.js";
import { look } from "../store.js";
import { act, fetched } from "../talk.js";
import { RANKS } from "../panel/match_fields.js";
import { Hours } from "./hours.js";
import { PhaseBar } from "./phase_bar.js";

const NONE = { days: [], time: "", minutes: 75 };
const READING = { dates: "", match: "", club: "", calendar: "", zone: "", year: 0, off_season: 4, pre_season: 6 };

const begun = (found) => ({
  name: found.name || "", sport: "", starts: found.starts || [],
  priorities: Object.fromEntries((found.fixtures || []).map((match) => [match.date, match.priority])),
  pre_season: NONE, in_season: NONE, earliest: "", latest: "",
});

const practice = (wish) => Object.fromEntries(["pre_season", "in_season"].filter((key) => wish[key].days.length)
  .map((key) => [key, { days: wish[key].days, minutes: wish[key].minutes, ...(wish[key].time ? { time: wish[key].time } : {}) }]));

const Read = ({ found, reading, again }) => html`<section aria-labelledby="read"><h2 id="read">What was read</h2>
  ${found.unread && html`<p class="trouble" role="alert">${told(found.unread)}</p>`}
  <ul class="read">${[...found.words, ...(found.notices || [])].map((words) => html`<li key=${words}>${told(words)}</li>`)}</ul>
  ${found.clubs && html`<label>Whose season? <select value=${reading.club} onChange=${(event) => again({ club: event.target.value })}><option value="">choose a club</option>${found.clubs.map((club) => html`<option key=${club} value=${club}>${club}</option>`)}</select></label>`}
  <details open=${Boolean(found.unread)}><summary>${found.unread ? "Say what the list does not" : "It was read wrongly"}</summary><div class="row">
    <label>Dates such as 03/04 <select value=${reading.dates} onChange=${(event) => again({ dates: event.target.value })}><option value="">as the list tells</option><option value="day-first">day first</option><option value="month-first">month first</option></select></label>
    <label class="short">It begins in the year <input name="year" type="number" min="2000" max="2100" placeholder="as the list tells" value=${reading.year || ""} onChange=${(event) => again({ year: Number(event.target.value) })} /></label>
    <label>Only matches with this in their name <input value=${reading.match} onChange=${(event) => again({ match: event.target.value })} /></label>
    <label>Only this calendar or category <input value=${reading.calendar} onChange=${(event) => again({ calendar: event.target.value })} /></label>
    <label>Time zone <select value=${reading.zone} onChange=${(event) => again({ zone: event.target.value })}><option value="">that of the list</option>${Intl.supportedValuesOf("timeZone").map((zone) => html`<option key=${zone} value=${zone}>${zone}</option>`)}</select></label>
  </div></details>
</section>`;

const Matches = ({ found, wish, set }) => html`<section aria-labelledby="which"><h2 id="which">Which matches matter</h2>
  <p class="hint">A peak is one or two of the year; a high match is peaked and tapered for too; a medium one has an easier week.</p>
  <div class="scroll tall" tabindex="0" role="region" aria-label="Matches"><table><thead><tr><th scope="col">Date</th><th scope="col">Match</th><th scope="col">Priority</th></tr></thead><tbody>
  ${found.fixtures.map((match) => html`<tr key=${match.date}><td>${said(match.date)}${match.kickoff && ` ${match.kickoff}`}</td><th scope="row"><bdi>${match.name}</bdi>${match.competition && match.competition !== match.name && html` <small>${match.competition}</small>`}</th>
    <td><select aria-label=${`Priority of ${match.name} on ${said(match.date)}`} value=${wish.priorities[match.date]} onChange=${(event) => set({ priorities: { ...wish.priorities, [match.date]: event.target.value } })}>${RANKS.map(([value, words]) => html`<option key=${value} value=${value}>${words}</option>`)}</select>${match.why && wish.priorities[match.date] !== "low" && html` <small>proposed: ${match.why}</small>`}</td></tr>`)}
  </tbody></table></div></section>`;

const changedRanks = (found, wish) => Object.fromEntries(Object.entries(wish.priorities).filter(([date, rank]) => rank !== "low" || (found.ranked && found.fixtures.find((match) => match.date === date).priority !== rank)));

export const Draft = ({ draft, state }) => {
  const { found } = draft;
  const [reading, setReading] = useState(READING);
  const [wish, setWish] = useState(begun(found));
  const [busy, setBusy] = useState(false);
  const set = (patch) => setWish({ ...wish, ...patch });
  const again = async (patch) => {
    const now = { ...reading, ...patch };
    setReading(now);
    const told = await fetched("do/read-again", JSON.stringify({ reading: JSON.stringify(now) }));
    if (told) { look({ draft: { ...draft, found: told } }); setWish({ ...begun(told), name: patch.club ? told.name : wish.name || told.name, sport: wish.sport }); }
  };
  const make = async (event) => {
    event.preventDefault();
    setBusy(true);
    const { name, sport, starts } = wish;
    const hours = Object.fromEntries(["earliest", "latest"].filter((key) => wish[key]).map((key) => [key, wish[key]]));
    const made = await act("make", { wish: JSON.stringify({ reading, name, sport, starts, priorities: changedRanks(found, wish), practice: practice(wish), ...hours }) });
    setBusy(false);
    if (made) look({ draft: null, chosen: null });
  };
  return html`<form class="draft" onSubmit=${make}>
    <${Read} found=${found} reading=${reading} again=${again} />
    ${found.fixtures && html`
    <section aria-labelledby="what"><h2 id="what">The season</h2><div class="row">
      <label>Name <input name="name" required maxlength="120" value=${wish.name} onInput=${(event) => set({ name: event.target.value })} /></label>
      <label>Sport <input name="sport" maxlength="60" value=${wish.sport} onInput=${(event) => set({ sport: event.target.value })} /></label>
      <label class="short">Weeks of off-season <input type="number" min="0" max="52" value=${reading.off_season} onChange=${(event) => again({ off_season: Number(event.target.value) })} /></label>
      <label class="short">Weeks of pre-season <input type="number" min="0" max="52" value=${reading.pre_season} onChange=${(event) => again({ pre_season: Number(event.target.value) })} /></label>
    </div>
    <p>${found.weeks} weeks from ${brief(found.first)}, ${found.fixtures.length} matches. Pull a handle, or use the arrow keys on it, to have a phase begin earlier or later.</p>
    <${PhaseBar} found=${found} starts=${wish.starts} set=${(starts) => set({ starts })} /></section>
    <${Matches} found=${found} wish=${wish} set=${set} />
    <${Hours} wish=${wish} set=${set} />`}
    <div class="row end"><button type="button" onClick=${() => look({ draft: null })}>Back</button>
    ${found.fixtures && html`<button class="main" id="make" disabled=${busy}>${busy ? "Making it" : "Make the season and plan it"}</button>`}</div>
    <p class="hint">A folder with its name is made in ${state.folder}.</p>
  </form>`;
};
