// When the team practises, and between which hours the plan's own sessions may start.
import { html } from "../html.js";

const DAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

const toggled = (list, day) => (list.includes(day) ? list.filter((each) => each !== day) : DAYS.filter((each) => each === day || list.includes(each)));

const Practice = ({ name, value, set }) => html`<fieldset><legend>Team practice, ${name}</legend>
  <div class="choices" role="group" aria-label=${`Days of practice, ${name}`}>${DAYS.map((day) => html`<button key=${day} type="button" aria-pressed=${value.days.includes(day)} onClick=${() => set({ ...value, days: toggled(value.days, day) })}>${day.slice(0, 3)}</button>`)}</div>
  <div class="row"><label class="short">At <input type="time" value=${value.time} onInput=${(event) => set({ ...value, time: event.target.value })} /></label>
  <label class="short">Minutes <input type="number" min="0" max="300" step="5" value=${value.minutes} onInput=${(event) => set({ ...value, minutes: Number(event.target.value) })} /></label></div>
  <p class="hint">${value.days.length ? "" : "No days chosen: practice is placed around the matches and the plan's own work."}</p>
</fieldset>`;

export const Hours = ({ wish, set }) => html`<section aria-labelledby="hours"><h2 id="hours">Days and hours</h2>
  <div class="columns-2">
    <${Practice} name="pre-season" value=${wish.pre_season} set=${(pre_season) => set({ pre_season })} />
    <${Practice} name="in season" value=${wish.in_season} set=${(in_season) => set({ in_season })} />
  </div>
  <fieldset><legend>The plan's own sessions start</legend><div class="row">
    <label class="short">From <input type="time" value=${wish.earliest} onInput=${(event) => set({ earliest: event.target.value })} /></label>
    <label class="short">To <input type="time" value=${wish.latest} onInput=${(event) => set({ latest: event.target.value })} /></label>
  </div><p class="hint">Left empty: between 8:00 and 20:00.</p></fieldset>
</section>`;
