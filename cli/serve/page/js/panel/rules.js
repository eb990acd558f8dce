// Each rule as a sentence, a switch, the numbers in it, and its price when it is asked for.
import { html } from "../html.js";
import { act, edit } from "../talk.js";
import { LetOff } from "./let_off.js";
import { Field } from "./rule_field.js";

const Rule = ({ state, rule, open }) => html`<details class=${`rule${rule.on ? "" : " off"}`} open=${open}>
  <summary><b>${rule.title}</b>${rule.safety && html` <span class="safe">keeps people safe</span>`}${!rule.on && html` <span class="safe">not used</span>`}<span class="words">${rule.words}</span></summary>
  <div class="row">
    <label class="switch"><input type="checkbox" checked=${rule.on} onChange=${(event) => toggled(event, rule)} /> Use this rule</label>
    ${rule.on && html`<button type="button" class="small" disabled=${Boolean(state.asking) || state.stale} onClick=${() => act("price", { rule: rule.name })}>What does it cost?</button>`}
  </div>
  ${state.answer?.about === `rule ${rule.name}` && html`<div class="answer" role="status">${state.answer.lines.map((line) => html`<p key=${line}>${line}</p>`)}</div>`}
  ${rule.fields.map((field, at) => html`<${Field} key=${`${field.path}${JSON.stringify(field.value)}`} rule=${rule} field=${field} about=${field.about !== rule.fields[at - 1]?.about && field.about} />`)}
  ${rule.on && html`<${LetOff} key=${`let off ${rule.waive.length}`} state=${state} rule=${rule} />`}
  <p class="hint">Source: ${rule.source}.</p>
</details>`;

const toggled = async (event, rule) => {
  const box = event.target;
  const safe = rule.on && rule.safety && !confirm(`${rule.title} keeps people safe. Leave it out?`);
  if (safe || !(await edit({ edit: rule.on ? "drop_rule" : "add_rule", rule: rule.name }))) box.checked = rule.on;
};

export const Rules = ({ state, ui }) => html`<h3>Rules</h3>
  <p class="hint">Each sentence says what holds now. Open a rule to change it, or to ask what it costs.</p>
  ${state.rules.map((rule) => html`<${Rule} key=${rule.name} state=${state} rule=${rule} open=${ui.rule === rule.name} />`)}`;
