// The whole season in small, where the board is wider than the window: a click goes there.
import { useEffect, useState } from "preact/hooks";
import { html } from "../html.js";
import { at } from "./scale.js";
import { toDay } from "./zoom.js";

const percent = (part) => `${(100 * part).toFixed(2)}%`;

export const Minimap = ({ state }) => {
  const [view, setView] = useState(null);
  useEffect(() => {
    const board = document.querySelector(".board");
    if (!board) return undefined;
    const see = () => setView(board.scrollWidth > board.clientWidth + 4 ? { from: board.scrollLeft / board.scrollWidth, part: board.clientWidth / board.scrollWidth } : null);
    const sizes = new ResizeObserver(see);
    sizes.observe(board);
    sizes.observe(board.querySelector(".sheet"));
    board.addEventListener("scroll", see);
    toDay("instant");
    return () => { board.removeEventListener("scroll", see); sizes.disconnect(); };
  }, []);
  if (!view) return null;
  const weeks = state.weeks.length;
  const go = (event) => {
    if (event.type === "pointermove" && !event.buttons) return;
    const box = event.currentTarget.getBoundingClientRect(), board = document.querySelector(".board");
    board.scrollLeft = ((event.clientX - box.left) / box.width) * board.scrollWidth - board.clientWidth / 2;
  };
  return html`<div class="minimap" aria-hidden="true" onPointerDown=${go} onPointerMove=${go}>
    ${state.weeks.map((week, index) => html`<i key=${week.number} class=${`mini ${week.phase}${week.closed ? " closed" : ""}`} style=${{ left: percent(index / weeks), width: percent(1 / weeks) }}></i>`)}
    ${state.fixtures.filter((match) => ["peak", "high"].includes(match.priority)).map((match) => html`<b key=${match.date} style=${{ left: percent(at(state, match.date) / weeks) }}>${match.sign}</b>`)}
    <span style=${{ left: percent(view.from), width: percent(view.part) }}></span>
  </div>`;
};
