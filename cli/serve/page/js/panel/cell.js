// One quality in one week: what the work is, why it is so, holding it, and what more would cost.
import { brief, told } from "../dates.js";
import { html } from "../html.js";
import { act, edit } from "../talk.js";
import { useAsked } from "./asked.js";

const DOSES = ["none", "touch", "reduced", "full"];

const Why = ({ lines }) => lines?.length > 0 && html`<details><summary>Why it is so</summary>${lines.map((line) => html`<p key=${line}>${told(line)}</p>`)}</details>`;

const Answer = ({ state, about }) => state.answer?.about === about && html`<div class="answer" role="status">${state.answer.lines.map((line) => html`<p key=${line}>${told(line)}</p>`)}</div>`;

export const Cell = ({ state, chosen }) => {
  const quality = state.qualities.find((each) => each.key === chosen.quality);
  const cell = quality?.cells[chosen.week - 1], week = state.weeks[chosen.week - 1];
  const found = useAsked(`cell?week=${chosen.week}&quality=${chosen.quality}`, state.version);
  if (!cell?.code) return html`<p class="hint">Nothing is planned there.</p>`;
  const bar = quality.bars.find((each) => each.first <= chosen.week && chosen.week <= each.last);
  const place = { week: chosen.week, quality: quality.key };
  const pin = (choice) => edit({ edit: "pin", ...place, ...choice });
  return html`
    <h3>${quality.name}, week ${chosen.week}</h3>
    <p class="soft">From ${brief(week.monday)}, ${week.phase}, ${quality.place}. Block of weeks ${bar.first} to ${bar.last}.</p>
    <p class="chip"><b style=${{ background: bar.colour, color: bar.text }}>${cell.code}</b> ${bar.label}, <strong>${cell.dose}</strong></p>
    ${cell.was && html`<p>On file: ${cell.was}.</p>`}
    ${cell.done && html`<p>Done: ${cell.done}.</p>`}
    ${found?.error && html`<p class="hint">${found.error}</p>`}
    ${found?.work && html`<h4>The work</h4><ul>${found.work.map((line) => html`<li key=${line}>${line}</li>`)}</ul>${found.full && html`<p class="hint">A full week: ${found.full}</p>`}`}
    ${!week.over && html`<fieldset><legend>Decide it yourself</legend>
      ${cell.held ? html`<p>You hold this choice.</p><button type="button" onClick=${() => act("release", place)}>Let it go</button>`
        : html`<button type="button" onClick=${() => pin({ band: cell.code, dose: cell.dose })}>Hold it as it is</button>`}
      <div class="choices" role="group" aria-label="Hold another dose">${DOSES.map((dose) => html`<button key=${dose} type="button" aria-pressed=${cell.dose === dose} onClick=${() => cell.dose !== dose && pin({ dose })}>${dose}</button>`)}</div>
      <label>Hold another band <select value="" onChange=${(event) => event.target.value && pin({ band: event.target.value })}><option value="">choose</option>${quality.bands.filter((band) => band.code !== cell.code).map((band) => html`<option key=${band.code} value=${band.code}>${band.code} ${band.label}</option>`)}</select></label>
    </fieldset>
    <fieldset><legend>What would it cost?</legend>
      <div class="choices">${DOSES.filter((dose) => dose !== cell.dose).map((dose) => html`<button key=${dose} type="button" disabled=${Boolean(state.asking)} onClick=${() => act("cost", { ...place, dose })}>${dose}</button>`)}</div>
      <${Answer} state=${state} about=${`cell ${chosen.week} ${quality.key}`} />
    </fieldset>`}
    <${Why} lines=${found?.why} />`;
};
