import { html } from "./html.js";
import { look } from "./store.js";

// Matches that were taken out: they can be given a date again.
export const Undated = ({ state }) => state.undated.length > 0 && html`<section class="undated" aria-labelledby="undated-title">
  <h3 id="undated-title">Without a date</h3>
  <ul>${state.undated.map((match) => html`<li key=${match.was}>
    <button type="button" onClick=${() => look({ chosen: { kind: "add", from: match } })}>${match.sign} <bdi>${match.name}</bdi>: give it a date</button>
  </li>`)}</ul>
</section>`;
