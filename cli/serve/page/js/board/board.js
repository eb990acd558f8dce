import { useMemo } from "preact/hooks";
import { html } from "../html.js";
import { Axis } from "./axis.js";
import { Columns } from "./columns.js";
import { Days } from "./days.js";
import { Ladder, cellKeys } from "./ladder.js";
import { Legend } from "./legend.js";
import { Load } from "./load.js";
import { Marks } from "./marks.js";
import { Matches } from "./matches.js";
import { Breaks, Phases } from "./phases.js";
import { Ready } from "./ready.js";
import { label, weekWidth } from "./scale.js";

export const Board = ({ state, ui }) => {
  const w = weekWidth(state, ui), zoom = ui.print ? "season" : ui.zoom, chosen = ui.chosen;
  // how far a search is changes often, and nothing of it is drawn here
  const sheet = useMemo(() => html`<div class="sheet" data-w=${w} style=${{ "--w": `${w}px`, "--label": `${label()}px`, "--weeks": state.weeks.length }}>
    <${Columns} state=${state} chosen=${chosen} />
    <${Axis} state=${state} zoom=${zoom} chosen=${chosen} />
    <${Phases} state=${state} />
    <${Breaks} state=${state} />
    <${Matches} state=${state} w=${w} zoom=${zoom} chosen=${chosen} />
    <div class="ladders" role="grid" aria-label="Bands and doses by week" onKeyDown=${cellKeys}>
      ${state.qualities.map((quality, row) => html`<${Ladder} key=${quality.key} quality=${quality} row=${row} zoom=${zoom} chosen=${chosen} />`)}
    </div>
    <${Marks} state=${state} zoom=${zoom} />
    ${zoom === "week" && html`<${Days} state=${state} />`}
    <${Load} state=${state} />
    <${Ready} state=${state} />
  </div>`, [state.version, w, zoom, chosen, label()]);
  return html`<div>
    <div class=${`board zoom-${zoom}${state.stale ? " stale" : ""}`} role="region" tabindex="0" aria-label="Season, can be scrolled">${sheet}</div>
    <${Legend} state=${state} />
  </div>`;
};
