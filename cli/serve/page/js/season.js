// A season: what it is called, how its plan stands, the board, and the panel beside it.
import { Beside } from "./beside.js";
import { Board } from "./board/board.js";
import { Minimap } from "./board/minimap.js";
import { Clash } from "./clash.js";
import { Doubts } from "./doubts.js";
import { html } from "./html.js";
import { Head } from "./head.js";
import { Palette } from "./palette.js";
import { Panel } from "./panel/panel.js";
import { Scores } from "./scores.js";
import { Trouble } from "./trouble.js";
import { Undated } from "./undated.js";
import { Zoom } from "./board/zoom.js";

export const Season = ({ state, ui }) => html`
  <${Head} state=${state} ui=${ui} />
  <${Trouble} ui=${ui} />
  ${state.trouble && html`<p class="trouble" role="alert">${state.trouble}</p>`}
  <main id="main" tabindex="-1" class=${ui.chosen ? "has-chosen" : ""}>
    <section class="season" aria-labelledby="board-title">
      <h2 id="board-title" class="quiet">Season</h2>
      <${Scores} state=${state} />
      <${Clash} state=${state} />
      <${Zoom} state=${state} ui=${ui} />
      <${Minimap} state=${state} />
      <${Board} state=${state} ui=${ui} />
      <${Undated} state=${state} />
      ${ui.tab === "versions" && html`<${Beside} kept=${state.kept} first=${state.first} />`}
    </section>
    <${Panel} state=${state} ui=${ui} />
  </main>
  <footer><p>A planning aid, not medical advice: work under qualified supervision and after medical clearance; come back to top speed step by step; stop for pain; local policy and licensed practitioners come first. Readiness is planned, not measured.</p></footer>
  <${Doubts} ui=${ui} />
  <${Palette} state=${state} ui=${ui} />`;
