// Beside the board: what was chosen on it, or one of four lists.
import { html } from "../html.js";
import { look } from "../store.js";
import { AddMatch } from "./add_match.js";
import { Break } from "./break.js";
import { Cell } from "./cell.js";
import { Changes } from "./changes.js";
import { Match } from "./match.js";
import { PrintOut } from "./print_out.js";
import { Rules } from "./rules.js";
import { Versions } from "./versions.js";
import { Week } from "./week.js";

const TABS = { changes: ["Changes", Changes], rules: ["Rules", Rules], versions: ["Versions", Versions], print: ["Print", PrintOut] };
const CHOSEN = { match: Match, cell: Cell, week: Week, add: AddMatch, break: Break };

const turn = (event, keys, tab) => {
  const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
  if (!step) return;
  event.preventDefault();
  const next = keys[(keys.indexOf(tab) + step + keys.length) % keys.length];
  look({ tab: next });
  document.getElementById(`tab-${next}`).focus();
};

export const Panel = ({ state, ui }) => {
  const Chosen = ui.chosen && CHOSEN[ui.chosen.kind];
  if (Chosen) return html`<aside class="panel chosen" aria-label="What was chosen">
    <button type="button" class="plain back" onClick=${() => look({ chosen: null })}>Close</button>
    <${Chosen} key=${JSON.stringify(ui.chosen)} state=${state} chosen=${ui.chosen} />
  </aside>`;
  const keys = Object.keys(TABS), List = TABS[ui.tab][1];
  return html`<aside class="panel" aria-label="Lists">
    <div class="tabs" role="tablist" onKeyDown=${(event) => turn(event, keys, ui.tab)}>
      ${keys.map((key) => html`<button key=${key} id=${`tab-${key}`} type="button" role="tab" aria-selected=${ui.tab === key} aria-controls="tab-panel" tabindex=${ui.tab === key ? 0 : -1} onClick=${() => look({ tab: key })}>${TABS[key][0]}${key === "changes" && state.edits.length > 0 && ` (${state.edits.length})`}</button>`)}
    </div>
    <div id="tab-panel" role="tabpanel" aria-labelledby=${`tab-${ui.tab}`}><${List} state=${state} ui=${ui} /></div>
  </aside>`;
};
