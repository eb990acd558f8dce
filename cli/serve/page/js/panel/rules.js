// Each rule as a sentence, a switch, the numbers in it, and its price when it is asked for.
import { useState } from "preact/hooks";
import { html } from "../html.js";
import { act, edit } from "../talk.js";

const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);

const ranged = (field) => field.kind === "number" && [field.least, field.most].every((each) => each !== null && each !== undefined) && field.step !== "any";

const Input = ({ field, value, set, id }) => {
  const number = (event) => set(event.target.value === "" ? "" : Number(event.target.value));
  if (field.kind === "switch") return html`<input id=${id} type="checkbox" checked=${value} onChange=${(event) => set(event.target.checked)} />`;
  if (field.kind === "choice") return html`<select id=${id} value=${value} onChange=${(event) => set(event.target.value)}>${field.choices.map((each) => html`<option key=${each} value=${each}>${each}</option>`)}</select>`;
  if (field.kind === "time") return html`<input id=${id} type="time" required value=${value} onInput=${(event) => set(event.target.value)} />`;
  if (field.kind === "numbers") return html`<span class="numbers">${value.map((each, at) => html`<input key=${at} id=${at ? undefined : id} aria-label=${`${field.label}, number ${at + 1}`} type="number" required value=${each} onInput=${(event) => set(value.map((old, place) => (place === at ? Number(event.target.value) : old)))} />`)}</span>`;
  return html`<input id=${id} type="number" required min=${field.least} max=${field.most} step=${field.step} value=${value} onInput=${number} />`;
};

const bounds = (field) => [field.least !== null && field.least !== undefined && `from ${field.least}`, field.most !== null && field.most !== undefined && `to ${field.most}`].filter(Boolean).join(" ");

const Field = ({ rule, field, about }) => {
  const [value, setValue] = useState(field.value);
  const id = `${rule.name}-${field.path}`.replaceAll(".", "-"), changed = !same(value, field.value);
  const set = async (event) => {
    event.preventDefault();
    if (changed) await edit({ edit: "set", rule: rule.name, parameter: field.path, value });
  };
  const told = [about, !ranged(field) && field.kind === "number" && bounds(field), !same(field.value, field.usual) && `usual: ${String(field.usual)}`].filter(Boolean);
  return html`<form class="rule-field" onSubmit=${set}>
    <label for=${id}>${field.label}</label>
    <${Input} field=${field} value=${value} set=${setValue} id=${id} />
    ${ranged(field) && html`<input class="slide" type="range" min=${field.least} max=${field.most} step=${field.step} value=${value} aria-label=${`${field.label}, ${bounds(field)}`} onInput=${(event) => setValue(Number(event.target.value))} />`}
    ${told.length > 0 && html`<small class="about">${told.join("; ")}</small>`}
    ${changed && html`<button class="small main">Set</button>`}
  </form>`;
};

const Rule = ({ state, rule, open }) => html`<details class=${`rule${rule.on ? "" : " off"}`} open=${open}>
  <summary><b>${rule.title}</b>${rule.safety && html` <span class="safe">keeps people safe</span>`}${!rule.on && html` <span class="safe">not used</span>`}<span class="words">${rule.words}</span></summary>
  <div class="row">
    <label class="switch"><input type="checkbox" checked=${rule.on} onChange=${(event) => toggled(event, rule)} /> Use this rule</label>
    ${rule.on && html`<button type="button" class="small" disabled=${Boolean(state.asking) || state.stale} onClick=${() => act("price", { rule: rule.name })}>What does it cost?</button>`}
  </div>
  ${rule.waived > 0 && html`<p class="soft">It is let off in ${rule.waived} place${rule.waived > 1 ? "s" : ""}.</p>`}
  ${state.answer?.about === `rule ${rule.name}` && html`<div class="answer" role="status">${state.answer.lines.map((line) => html`<p key=${line}>${line}</p>`)}</div>`}
  ${rule.fields.map((field, at) => html`<${Field} key=${`${field.path}${JSON.stringify(field.value)}`} rule=${rule} field=${field} about=${field.about !== rule.fields[at - 1]?.about && field.about} />`)}
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
