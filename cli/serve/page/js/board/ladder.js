// A quality: one bar a block with the name of its band, and along it the amount of every week.
import { html } from "../html.js";
import { choose } from "../store.js";
import { span } from "./scale.js";

const NEAR = { ArrowLeft: [0, -1], ArrowRight: [0, 1], ArrowUp: [-1, 0], ArrowDown: [1, 0] };
const LEVEL = { none: 0, touch: 1, reduced: 2, full: 3 };

// From cell to cell by the arrow keys, past weeks that have none.
export const cellKeys = (event) => {
  const step = NEAR[event.key];
  const here = event.target.closest?.("[data-cell]");
  if (here && (event.key === "Enter" || event.key === " ")) {
    event.preventDefault();
    here.click();
  }
  if (!step || !here) return;
  event.preventDefault();
  let [row, week] = here.dataset.cell.split(" ").map(Number);
  for (let tries = 0; tries < 60; tries += 1) {
    row += step[0];
    week += step[1];
    const next = event.currentTarget.querySelector(`[data-cell="${row} ${week}"]`);
    if (!next) continue;
    here.tabIndex = -1;
    next.tabIndex = 0;
    next.focus();
    next.scrollIntoView({ block: "nearest", inline: "nearest" });
    return;
  }
};

const bandOf = (quality, number) => quality.bars.find((bar) => bar.first <= number && number <= bar.last);

const words = (quality, bar, cell, number) => [
  `Week ${number}, ${quality.name}: ${cell.code} ${bar.label}, ${cell.dose}`,
  cell.was && `on file ${cell.was}`, cell.done && `done ${cell.done}`, cell.held && "held by you",
].filter(Boolean).join("; ");

// The amount as a line in steps: nothing lies on the ground, a full week reaches the top.
const Amounts = ({ cells }) => {
  const steps = cells.map((cell, at) => `H${at} V${3 - LEVEL[cell.dose]} H${at + 1}`);
  const line = `M0 ${3 - LEVEL[cells[0].dose]} ${steps.join(" ")}`;
  return html`<svg class="amounts" viewBox=${`0 0 ${cells.length} 3`} preserveAspectRatio="none">
    <path class="area" d=${`${line} V3 H0 Z`} /><path class="edge" d=${line} />
  </svg>`;
};

export const Bar = ({ bar, cells }) => html`<div class="bar" style=${{ ...span(bar.first - 1, bar.last - bar.first + 1), "--fill": bar.colour, "--on": bar.text }}>
  <span class="band" title=${`${bar.code} ${bar.label}, rung ${bar.rung} of ${bar.rungs}`}><b>${bar.code}</b><span class="label">${` ${bar.label}`}</span></span>
  <${Amounts} cells=${cells.slice(bar.first - 1, bar.last)} />
</div>`;

const Cell = ({ quality, row, number, cell, bar, zoom, chosen, first }) => html`<div role="gridcell" data-cell=${`${row} ${number}`} tabindex=${first ? 0 : -1}
  class=${`cell ${cell.dose}${cell.was ? " diff" : ""}${cell.held ? " held" : ""}${chosen ? " chosen" : ""}`}
  style=${{ ...span(number - 1, 1), "--fill": bar.colour, "--on": bar.text }} aria-label=${words(quality, bar, cell, number)} title=${words(quality, bar, cell, number)}
  onClick=${() => choose({ kind: "cell", week: number, quality: quality.key })}>
  ${zoom !== "season" && html`<span class="dose">${cell.dose}</span>`}
  ${cell.done && html`<span class="done" aria-hidden="true">≠</span>`}
</div>`;

export const Ladder = ({ quality, before, row, zoom, chosen }) => {
  const first = quality.cells.findIndex((cell) => cell.code);
  return html`<div class="board-row ladder" role="row">
    <div class="row-name" role="rowheader">${quality.name}</div>
    <div class="lane" role="presentation">
      ${before && html`<div class="bars before" aria-hidden="true">${before.bars.map((bar) => html`<${Bar} key=${bar.first} bar=${bar} cells=${before.cells} />`)}</div>`}
      <div class="bars after" aria-hidden="true">${quality.bars.map((bar) => html`<${Bar} key=${bar.first} bar=${bar} cells=${quality.cells} />`)}</div>
      ${quality.cells.map((cell, index) => cell.code && html`<${Cell} key=${index} quality=${quality} row=${row} number=${index + 1} cell=${cell} bar=${bandOf(quality, index + 1)} zoom=${zoom}
        first=${!row && index === first} chosen=${chosen?.kind === "cell" && chosen.week === index + 1 && chosen.quality === quality.key} />`)}
    </div>
  </div>`;
};
