import { html } from "../html.js";

// One row of the board: its name stays at the left, what is in it scrolls.
export const Row = ({ name, kind = "", children, ...more }) => html`<div class=${`board-row ${kind}`} ...${more}>
  <div class="row-name">${name}</div>
  <div class="lane">${children}</div>
</div>`;
