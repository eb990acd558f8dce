import { html } from "../html.js";
import { exported } from "../talk.js";
import { Squad } from "./squad.js";

const PRINTS = [["pdf", "Wall chart (A3) and week sheets (A4)", "PDF, opens for a look before it is printed"]];
const FILES = [
  ["html", "One page to send", "everything in one file, for reading only"],
  ["xlsx", "Workbook", "for a spreadsheet"],
  ["ics", "Calendar", "matches and sessions, for a phone or a diary"],
  ["png", "Season chart, picture", "for slides and messages"],
  ["svg", "Season chart, drawing", "stays sharp at any size"],
  ["plan", "Plan", "for other programs (JSON)"],
];

const Link = ({ kind, name, about }) => html`<li><a href=${exported(kind)} target=${kind === "pdf" ? "_blank" : undefined} rel="noopener" download=${kind === "pdf" ? undefined : ""}>${name}</a> <small>${about}</small></li>`;

export const PrintOut = ({ state }) => html`<h3>On paper</h3>
  <ul class="links">${PRINTS.map(([kind, name, about]) => html`<${Link} key=${kind} kind=${kind} name=${name} about=${about} />`)}</ul>
  <button type="button" onClick=${() => print()}>Print this page</button>
  <p class="hint">The whole season goes on one sheet across (A4 or A3, landscape).</p>
  <${Squad} state=${state} key=${`squad ${state.squad}`} />
  <h3>As files</h3>
  <ul class="links">${FILES.map(([kind, name, about]) => html`<${Link} key=${kind} kind=${kind} name=${name} about=${about} />`)}</ul>
  ${state.provisional && html`<p class="hint">The plan shown is provisional: ${state.proof}.</p>`}`;
