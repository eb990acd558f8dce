import { told } from "./dates.js";
import { html } from "./html.js";
import { Season } from "./season.js";
import { Start } from "./start/start.js";
import { look } from "./store.js";

export const Trouble = ({ ui }) => ui.trouble && html`<div class="trouble" role="alert">
  <p>${told(ui.trouble)}</p>
  ${ui.shown && html`<pre tabindex="0" aria-label="What is different on file">${ui.shown}</pre>`}
  <button type="button" onClick=${() => look({ trouble: "", shown: "" })}>Close</button>
</div>`;

export const App = ({ state, ui }) => {
  if (!state) return html`<main id="main"><${Trouble} ui=${ui} /></main>`;
  return state.place === "start" ? html`<${Start} state=${state} ui=${ui} />` : html`<${Season} state=${state} ui=${ui} />`;
};
