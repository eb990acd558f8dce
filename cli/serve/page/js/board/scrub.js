// From the plan on file to the one after the changes, and back: both drawn over each other, one
// of them fading.
import { html } from "../html.js";
import { look, store } from "../store.js";

const mix = (value) => {
  const before = store.ui.mix;
  document.querySelector(".board")?.style.setProperty("--after", value / 100);
  store.ui.mix = value;
  // the board itself is drawn anew only when the plan on file comes in sight or leaves it
  if ((before === 100) !== (value === 100) || value === 0 || before === 0) look({});
};

const words = (value) => ({ 0: "before", 100: "after" })[value] || `${value} % of the way from before to after`;

export const Scrub = ({ state, ui }) => state.before && html`<div class="scrub" role="group" aria-label="Before and after">
  <button type="button" class="small" aria-pressed=${ui.mix === 0} onClick=${() => mix(0)}>Before</button>
  <input type="range" min="0" max="100" step="1" value=${ui.mix} aria-label="From before to after" aria-valuetext=${words(ui.mix)} onInput=${(event) => mix(Number(event.target.value))} />
  <button type="button" class="small" aria-pressed=${ui.mix === 100} onClick=${() => mix(100)}>After</button>
</div>`;
