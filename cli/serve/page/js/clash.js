import { html } from "./html.js";
import { act } from "./talk.js";

// Rules that clash, and the least that would have to give: each repair comes with a plan.
export const Clash = ({ state }) => state.clash && html`<section class="clash" aria-labelledby="clash-title">
  <h3 id="clash-title">The rules clash</h3>
  ${state.clash.lines.length ? html`<p>No plan keeps all of these. Without any one of them the rest can be kept:</p>
    <ul id="clash">${state.clash.lines.map((line) => html`<li key=${line}>${line}</li>`)}</ul>` : html`<p>No plan keeps all the rules; which of them clash was not found in the time for it.</p>`}
  ${state.clash.mends.length > 0 && html`<p>What would have to give; with each a plan was found that keeps everything else:</p>`}
  ${state.clash.mends.map((mend, at) => html`<div class="mend" key=${at}>
    <p>${mend.safety && html`<strong>Keeps people safe; give it up last. </strong>`}${mend.words.join(" ")}</p>
    <button type="button" onClick=${() => act("loosen", { number: at })}>${at ? "Take this" : "Take the nearest plan"}</button>
  </div>`)}
  ${state.solving && html`<p class="busy soft">Looking for repairs.</p>`}
</section>`;
