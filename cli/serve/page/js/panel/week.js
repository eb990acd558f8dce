// A week: its days and hours, its work, what was done, and whether it is closed.
import { ask, free } from "../board/borders.js";
import { dayThings, kickoffsOf } from "../board/days.js";
import { brief, said, shifted, told } from "../dates.js";
import { html } from "../html.js";
import { look } from "../store.js";
import { edit, exported } from "../talk.js";
import { useAsked } from "./asked.js";
import { Done } from "./done.js";
import { Shift } from "./shift.js";
import { There } from "./there.js";

const facts = (week) => [
  `Target ${week.target}`,
  week.planned && `planned readiness ${week.ready.toFixed(1)}`,
  week.planned && `load ${week.load.total} AU`,
  week.deload && "deload", week.taper && "taper", week.retest?.length > 0 && `test again on ${week.retest.map(brief).join(" or ")}`,
].filter(Boolean).join(", ");

const Day = ({ day, kickoffs }) => html`<tr><th scope="row">${said(day.date)}${day.label && html` <small>${day.label}</small>`}</th>
  <td>${day.empty && html`<span class="hint">${day.empty}</span>`}<ul class="plain">${dayThings(day, kickoffs).map((thing) => html`<li>${thing.time && html`<b>${thing.time}</b>`} ${thing.words}</li>`)}</ul></td><td class="n">${day.load || ""}</td></tr>`;

export const Week = ({ state, chosen }) => {
  const week = state.weeks[chosen.week - 1];
  const found = useAsked(`week?number=${chosen.week}`, state.version);
  const days = { first: week.monday, last: shifted(week.monday, 6) };
  return html`
    <h3>Week ${week.number}</h3>
    <p class="soft">${brief(week.monday)} to ${brief(shifted(week.monday, 6))}, ${week.phase}${week.closed ? ", closed" : ""}${week.block ? `, week ${week.block_week} of block ${week.block}` : ""}.</p>
    <p>${facts(week)}.</p>
    ${week.done && html`<p>${week.done.recorded ? `Done: load ${week.load.total} of ${week.done.load} AU planned; readiness ${week.ready.toFixed(1)}, planned ${week.done.ready.toFixed(1)}.` : "Over, and nothing of it is on record: taken as planned."}</p>`}
    ${week.breaks.map((item) => html`<p key=${`${item.kind} ${item.first}`}><button type="button" class="plain" onClick=${() => look({ chosen: { kind: "break", old: item } })}>${item.kind}${item.note && `: ${item.note}`}</button>, ${brief(item.first)} to ${brief(item.last)}</p>`)}
    ${!week.over && html`<div class="row">
      ${week.closed || week.breaks.some((item) => ["rest", "exams"].includes(item.kind))
        ? html`<button type="button" onClick=${() => edit({ edit: "open", ...days })}>Open the week for training</button>`
        : html`<button type="button" onClick=${() => edit({ edit: "close", ...days })}>Close the week: no training</button>`}
      ${state.borders && week.planned && week.number > state.over + 1 && !week.closed && (week.block_week === 1
        ? free(state).includes(week.number) && html`<button type="button" onClick=${() => ask(state, null, week.number)}>No block begins here</button>`
        : html`<button type="button" onClick=${() => ask(state, week.number, null)}>Begin a block here</button>`)}
      <button type="button" onClick=${() => look({ chosen: { kind: "add", date: shifted(week.monday, 5) } })}>Add a match</button>
      <button type="button" onClick=${() => look({ chosen: { kind: "break", days } })}>Add a break</button>
    </div>`}
    ${found?.error && html`<p class="hint">${found.error}</p>`}
    ${found?.days?.length > 0 && html`<h4>Days</h4><table class="days-table"><thead><tr><th scope="col">Day</th><th scope="col">On it</th><th scope="col" class="n">AU</th></tr></thead><tbody>${found.days.map((day) => html`<${Day} key=${day.date} day=${day} kickoffs=${kickoffsOf(state)} />`)}</tbody></table>`}
    ${found?.days?.length > 0 && state.versions.length > 0 && !week.over && html`<${Shift} week=${week} days=${found.days} held=${found.held} key=${`shift ${state.version}`} />`}
    ${state.today && week.monday <= state.today && state.qualities[0]?.cells.length > 0 && html`<${Done} state=${state} week=${week} />`}
    <${There} squad=${found?.squad} week=${week} state=${state} />
    ${found?.faults?.map((fault) => html`<p key=${fault}>Not kept: ${fault}.</p>`)}
    ${found?.notes?.map((note) => html`<p class="hint" key=${note}>${note}</p>`)}
    ${found?.work?.length > 0 && html`<h4>The work</h4><ul>${found.work.map((line) => html`<li key=${line}>${line}</li>`)}</ul>`}
    ${state.squad === 0 && html`<p class="hint">Session cards need the squad: enter it under Print.</p>`}
    ${state.squad > 0 && html`<p><a href=${exported("cards", week.number)} target="_blank" rel="noopener">Session cards of this week (PDF)</a></p>`}
    ${found?.why?.length > 0 && html`<details><summary>Why it is so</summary>${found.why.map((line) => html`<p key=${line}>${told(line)}</p>`)}</details>`}`;
};
