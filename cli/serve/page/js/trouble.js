import { told } from "./dates.js";
import { html } from "./html.js";
import { look } from "./store.js";

export const Trouble = ({ ui }) => ui.trouble && html`<div class="trouble" role="alert">
  <p>${told(ui.trouble)}</p>
  ${ui.shown && html`<pre tabindex="0" aria-label="What is different on file">${ui.shown}</pre>`}
  <button type="button" onClick=${() => look({ trouble: "", shown: "" })}>Close</button>
</div>`;
