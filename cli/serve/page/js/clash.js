import { html } from "./html.js";
import { act } from "./talk.js";

// Rules that clash, and the least that would have to give: each repair comes with a plan.
export const Clash = ({ state }) => state.clash && html`<section class="clash" aria-labelledby="clash-title">
  <h3 id="clash-title">The rules clash</h3>
  <pre tabindex="0" aria-label="The clash">${state.clash.words}</pre>
  ${state.clash.mends.map((mend, at) => html`<div class="mend" key=${at}>
    <p>${mend.safety && html`<strong>Keeps people safe; give it up last. </strong>`}${mend.words.join(" ")}</p>
    <button type="button" onClick=${() => act("loosen", { number: at })}>${at ? "Take this" : "Take the nearest plan"}</button>
  </div>`)}
  ${state.solving && html`<p class="busy soft">Looking for repairs.</p>`}
</section>`;
