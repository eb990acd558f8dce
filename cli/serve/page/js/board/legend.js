// What the signs and colours mean, only those that are on the board at this zoom.
import { html } from "../html.js";

// A finger picks things up by resting on them.
const fingers = matchMedia("(pointer: coarse)").matches;
const HOW = fingers
  ? "Let a finger rest on a match, then draw it along the days; a circle below the bars moves where a block begins."
  : "Drag a match along the days, or choose it and press M, arrow keys (up and down: a week), Enter.";

const DAYS = html`<span>Days: <i class="day-key at-field"></i> field, <i class="day-key at-gym"></i> gym, <i class="day-key at-practice"></i> practice, <i class="day-key at-match"></i> match.</span>`;

export const Legend = ({ state, zoom }) => html`<p class="legend">
  <span>Matches: ★ peak, ◆ high, ▲ medium, ○ low.</span>
  <span>A bar is a block on one band; the line along it is the amount: <i class="dose-key touch"></i> touch, <i class="dose-key reduced"></i> reduced, <i class="dose-key full"></i> full.</span>
  ${state.edits.length > 0 && html`<span><i class="diff-key"></i> differs from the season on file.</span>`}
  ${zoom === "season" && html`<span><b>D</b> deload, <b>T</b> taper, <b>R</b> test again.</span>`}
  ${zoom === "month" && DAYS}
  <span>Load: <i class="load-key training"></i> training, <i class="load-key practice"></i> practice, <i class="load-key matches"></i> matches, <i class="load-key limit"></i> weekly rise limit.</span>
  <span>Readiness: <i class="line-key goal"></i> target, <i class="line-key now"></i> planned${state.edits.length > 0 && html`, <i class="line-key was"></i> on file`}.</span>
  <span class="hint">${HOW}</span>
</p>`;
