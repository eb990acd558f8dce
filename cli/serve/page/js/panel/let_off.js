// Where a rule is let off: each place can be taken out again, and another one added.
import { useState } from "preact/hooks";
import { html } from "../html.js";
import { edit } from "../talk.js";

const name = (key) => key.replaceAll("_", " ");

const place = (waiver) => [waiver.week ? `week ${waiver.week}` : "every week", waiver.quality && name(waiver.quality), waiver.part && name(waiver.part)].filter(Boolean).join(", ");

export const LetOff = ({ state, rule }) => {
  const [week, setWeek] = useState(state.over + 1);
  const [quality, setQuality] = useState("");
  const [by, setBy] = useState(1);
  const put = (waive) => edit({ edit: "set", rule: rule.name, parameter: "waive", value: waive });
  const add = (event) => {
    event.preventDefault();
    if (rule.safety && !confirm(`${rule.title} keeps people safe. Let it off there?`)) return;
    put([...rule.waive, { week, by, ...(quality ? { quality } : {}) }]);
  };
  return html`<details><summary>Let it off in a week${rule.waive.length > 0 && ` (${rule.waive.length})`}</summary>
    ${rule.waive.length > 0 && html`<ul>${rule.waive.map((waiver, at) => html`<li key=${JSON.stringify(waiver)}>${place(waiver)}: by ${waiver.by} <button type="button" class="small" aria-label=${`Hold to it again in ${place(waiver)}`} onClick=${() => put(rule.waive.filter((_, other) => other !== at))}>Take out</button></li>`)}</ul>`}
    <form class="row" onSubmit=${add}>
      <label>Week <input type="number" required min=${state.over + 1} max=${state.weeks.length} value=${week} onInput=${(event) => setWeek(Number(event.target.value))} /></label>
      <label>Of <select value=${quality} onChange=${(event) => setQuality(event.target.value)}><option value="">all it asks</option>${state.qualities.map((each) => html`<option key=${each.key} value=${each.key}>${each.name}</option>`)}</select></label>
      <label>By <input type="number" required min="1" value=${by} onInput=${(event) => setBy(Number(event.target.value))} /></label>
      <button class="small">Let it off</button>
    </form>
    <p class="hint">So many more, or fewer, than the rule allows there.</p>
  </details>`;
};
