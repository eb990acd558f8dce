import { html } from "../html.js";
import { Scrub } from "./scrub.js";
import { look } from "../store.js";

const ZOOMS = [["season", "Season"], ["month", "Months"], ["week", "Weeks"]];

export const Zoom = ({ state, ui }) => html`<div class="zoom">
  <div role="group" aria-label="Zoom" class="choices">${ZOOMS.map(([key, words]) => html`<button key=${key} type="button" aria-pressed=${ui.zoom === key} onClick=${() => zoom(key)}>${words}</button>`)}</div>
  <button type="button" onClick=${() => look({ chosen: { kind: "add" } })}>Add a match</button>
  ${state.today && html`<button type="button" onClick=${() => toDay("smooth")}>Today</button>`}
  <${Scrub} state=${state} ui=${ui} />
</div>`;

// The week in the middle of the board stays in the middle.
const zoom = (key) => {
  const board = document.querySelector(".board");
  const middle = board ? (board.scrollLeft + board.clientWidth / 2) / board.scrollWidth : 0;
  look({ zoom: key });
  if (!board) return;
  const w = Number(board.querySelector(".sheet").dataset.w), there = middle * board.scrollWidth - board.clientWidth / 2;
  board.scrollLeft = key === "week" ? Math.round(there / w) * w : there;
};

export const toDay = (behavior) => {
  const board = document.querySelector(".board"), day = board?.querySelector(".today");
  if (day) board.scrollTo({ left: day.offsetLeft + day.offsetParent.offsetLeft - board.clientWidth / 2, behavior });
};
