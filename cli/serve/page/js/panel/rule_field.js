// One parameter of a rule: a number, a switch, a time, or a list that grows and shrinks.
import { useState } from "preact/hooks";
import { html } from "../html.js";
import { edit } from "../talk.js";

const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);
const known = (bound) => bound !== null && bound !== undefined;

const ranged = (field) => field.kind === "number" && known(field.least) && known(field.most) && field.step !== "any";

const bounds = (field) => [known(field.least) && `from ${field.least}`, known(field.most) && `to ${field.most}`].filter(Boolean).join(" ");

const Numbers = ({ field, value, set, id }) => html`<span class="numbers">
  ${value.map((each, at) => html`<input key=${at} id=${at ? undefined : id} aria-label=${`${field.label}, number ${at + 1}`} type="number" required min=${field.least} max=${field.most} value=${each} onInput=${(event) => set(value.map((old, place) => (place === at ? Number(event.target.value) : old)))} />`)}
  ${value.length > field.fewest && html`<button type="button" class="small" aria-label=${`${field.label}: leave the last one out`} onClick=${() => set(value.slice(0, -1))}>\u2212</button>`}
  ${value.length < field.longest && html`<button type="button" class="small" id=${value.length ? undefined : id} aria-label=${`${field.label}: one more`} onClick=${() => set([...value, value.at(-1) ?? field.least ?? 0])}>+</button>`}
</span>`;

const Several = ({ field, value, set, id }) => {
  const turn = (name) => set(field.choices.filter((each) => (each === name ? !value.includes(name) : value.includes(each))));
  return html`<div class="choices" id=${id} role="group" aria-label=${field.label}>${field.choices.map((name) => html`<button key=${name} type="button" class="small" aria-pressed=${value.includes(name)} onClick=${() => turn(name)}>${field.names[name]}</button>`)}</div>`;
};

const Times = ({ field, value, set, id }) => {
  const now = value?.length ? value : Array(field.fewest).fill("");
  const put = (at, time) => {
    const next = now.map((old, place) => (place === at ? time : old));
    set(next.some(Boolean) ? next : []);
  };
  return html`<span class="numbers">${now.map((each, at) => html`<input key=${at} id=${at ? undefined : id} type="time" required=${now.some(Boolean)} aria-label=${`${field.label}, ${at ? "to" : "from"}`} value=${each} onInput=${(event) => put(at, event.target.value)} />`)}</span>`;
};

const LISTS = { numbers: Numbers, several: Several, times: Times };

const Input = ({ field, value, set, id }) => {
  const List = LISTS[field.kind];
  if (List) return html`<${List} field=${field} value=${value} set=${set} id=${id} />`;
  if (field.kind === "switch") return html`<input id=${id} type="checkbox" checked=${value} onChange=${(event) => set(event.target.checked)} />`;
  if (field.kind === "choice") return html`<select id=${id} value=${value} onChange=${(event) => set(event.target.value)}>${field.choices.map((each) => html`<option key=${each} value=${each}>${field.names[each]}</option>`)}</select>`;
  if (field.kind === "time") return html`<input id=${id} type="time" required=${!field.optional} value=${value || ""} onInput=${(event) => set(event.target.value || null)} />`;
  const number = (event) => set(event.target.value === "" ? "" : Number(event.target.value));
  return html`<input id=${id} type="number" required min=${field.least} max=${field.most} step=${field.step} value=${value} onInput=${number} />`;
};

const usual = (value, names) => {
  const none = value === null || value === "" || value?.length === 0;
  if (none) return "none";
  return typeof value === "boolean" ? (value ? "yes" : "no") : [value].flat().map((each) => names[each] ?? each).join(", ");
};

export const Field = ({ rule, field, about }) => {
  const [value, setValue] = useState(field.value);
  const id = `${rule.name}-${field.path}`.replaceAll(".", "-"), changed = !same(value, field.value);
  const set = async (event) => {
    event.preventDefault();
    if (changed) await edit({ edit: "set", rule: rule.name, parameter: field.path, value });
  };
  const told = [about, !ranged(field) && field.kind === "number" && bounds(field), !same(field.value, field.usual) && `usual: ${usual(field.usual, field.names)}`].filter(Boolean);
  return html`<form class=${`rule-field${LISTS[field.kind] ? " list" : ""}`} onSubmit=${set}>
    <label for=${field.kind === "several" ? undefined : id}>${field.label}</label>
    <${Input} field=${field} value=${value} set=${setValue} id=${id} />
    ${ranged(field) && html`<input class="slide" type="range" min=${field.least} max=${field.most} step=${field.step} value=${value} aria-label=${`${field.label}, ${bounds(field)}`} onInput=${(event) => setValue(Number(event.target.value))} />`}
    ${told.length > 0 && html`<small class="about">${told.join("; ")}</small>`}
    ${changed && html`<button class="small main">Set</button>`}
  </form>`;
};
