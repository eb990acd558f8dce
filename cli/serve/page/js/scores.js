import { html } from "./html.js";

const value = (number) => (number === null ? "none" : number.toFixed(1));

// Every figure has the other beside it; which is better is left to the table of matches, whose
// differences are told only where the searches can tell them.
export const Scores = ({ state }) => html`<dl class="scores" aria-label="Scores">
  ${state.scores.map((row) => html`<div key=${row.name}>
    <dt>${row.name}${state.provisional && ", provisional"}</dt>
    <dd>${value(row.now ?? row.was)}${" "}${state.edits.length > 0 && row.now !== null && row.was !== null && html`<small>on file ${value(row.was)}</small>`}</dd>
  </div>`)}
  ${state.headline && html`<div class="headline"><dt>What the changes do</dt><dd id="headline">${state.headline}</dd></div>`}
</dl>`;
