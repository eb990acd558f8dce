import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { html } from "../html.js";
import { Axis } from "./axis.js";
import { Borders } from "./borders.js";
import { Columns } from "./columns.js";
import { Days, Sessions } from "./days.js";
import { Ladder, cellKeys } from "./ladder.js";
import { Legend } from "./legend.js";
import { Load } from "./load.js";
import { Marks } from "./marks.js";
import { Matches } from "./matches.js";
import { Breaks, Phases } from "./phases.js";
import { Ready } from "./ready.js";
import { Ripple } from "./ripple.js";
import { EDGE, label, weekWidth } from "./scale.js";
import { store } from "../store.js";

// The line of today ends where the names of the rows stand.
const under = ({ currentTarget: board }) => board.style.setProperty("--under", `${board.scrollLeft}px`);

export const Board = ({ state, ui }) => {
  const place = useRef();
  // the width is known once the board stands, and changes with the window and what is beside it
  useLayoutEffect(() => {
    let wide = 0;
    const sizes = new ResizeObserver(([entry]) => {
      const now = Math.round(entry.contentRect.width);
      if (now !== wide) { wide = now; requestAnimationFrame(() => store.draw()); }
    });
    sizes.observe(place.current);
    return () => sizes.disconnect();
  }, []);
  const w = weekWidth(state, ui), zoom = ui.print ? "season" : ui.zoom, chosen = ui.chosen;
  const before = ui.mix < 100 && !ui.print ? state.before : null;
  // how far a search is changes often, and nothing of it is drawn here
  const drawn = useMemo(() => html`
    <${Columns} state=${state} chosen=${chosen} />
    <${Axis} state=${state} w=${w} zoom=${zoom} chosen=${chosen} />
    <${Phases} state=${state} w=${w} />
    <${Breaks} state=${state} w=${w} chosen=${chosen} />
    <${Matches} state=${state} w=${w} zoom=${zoom} chosen=${chosen} print=${ui.print} />
    <div class="blocks"><div class="ladders" role="grid" aria-label="Bands and doses by week" onKeyDown=${cellKeys}>
      ${state.qualities.map((quality, row) => html`<${Ladder} key=${quality.key} before=${before?.qualities[row]} quality=${quality} row=${row} zoom=${zoom} chosen=${chosen} />`)}
    </div>
    <${Borders} state=${state} w=${w} /></div>
    <${Marks} state=${state} zoom=${zoom} />
    ${zoom === "month" && html`<${Sessions} state=${state} />`}
    ${zoom === "week" && html`<${Days} state=${state} />`}
    <${Load} state=${state} before=${before} />
    <${Ready} state=${state} />`, [state.version, w, zoom, chosen, before, label()]);
  const sheet = html`<div class="sheet" data-w=${w} style=${{ "--w": `${w}px`, "--label": `${label()}px`, "--edge": `${EDGE}px`, "--weeks": state.weeks.length }}>
    ${drawn}
    <${Ripple} state=${state} touching=${ui.touching} />
  </div>`;
  return html`<div ref=${place}>
    <div style=${{ "--after": before ? ui.mix / 100 : 1 }} class=${`board zoom-${zoom}${state.stale ? " stale" : ""}`} role="region" tabindex="0" aria-label="Season, can be scrolled" onScroll=${under}>${sheet}</div>
    <${Legend} state=${state} zoom=${zoom} />
  </div>`;
};
