// A session or practice of a week on another day, or at another hour; kept with the season.
import { useState } from "preact/hooks";
import { said } from "../dates.js";
import { html } from "../html.js";
import { act } from "../talk.js";

const things = (days) => days.flatMap((day, at) => [...day.sessions.map((each) => each.place), ...(day.practice ? ["practice"] : [])].map((thing) => ({ thing, at, key: `${thing} ${at}` })));

export const Shift = ({ week, days, held }) => {
  const all = things(days);
  const [chosen, setChosen] = useState(all[0]?.key || "");
  const [to, setTo] = useState(String(all[0]?.at ?? 0));
  const [hour, setHour] = useState("");
  const what = all.find((each) => each.key === chosen);
  const send = (event) => {
    event.preventDefault();
    act("place", { week: week.number, shift: { thing: what.thing, day: what.at, to: Number(to), ...(hour ? { at: hour } : {}) } });
  };
  if (!what) return null;
  return html`<details><summary>Put a session on another day or hour</summary><form onSubmit=${send}><fieldset><legend>Move</legend>
    <label>What <select value=${chosen} onChange=${(event) => setChosen(event.target.value)}>${all.map((each) => html`<option key=${each.key} value=${each.key}>${each.thing}, ${said(days[each.at].date)}</option>`)}</select></label>
    <label>To <select value=${to} onChange=${(event) => setTo(event.target.value)}>${days.map((day, at) => html`<option key=${day.date} value=${String(at)}>${said(day.date)}</option>`)}</select></label>
    <label>At <input type="time" value=${hour} onInput=${(event) => setHour(event.target.value)} /></label>
    <button disabled=${Number(to) === what.at && !hour}>Move</button>
    <p class="hint">All else of the week stays where it is if it can. At the zoom of weeks a session can be pulled to another day.</p>
  </fieldset></form>${held && html`<button type="button" class="small" onClick=${() => act("place", { week: week.number })}>Let go what is asked of these days</button>`}</details>`;
};
