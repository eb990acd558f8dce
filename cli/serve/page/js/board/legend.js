import { html } from "../html.js";

export const Legend = ({ state }) => html`<p class="legend">
  Matches: ★ peak, ◆ high, ▲ medium, ○ low. A bar is a block on one band; the columns in it are the dose: <i class="dose-key touch"></i> touch, <i class="dose-key reduced"></i> reduced, <i class="dose-key full"></i> full.
  ${state.edits.length > 0 && html` <i class="diff-key"></i> differs from the season on file.`} D deload, T taper, R test again.
  Load: <i class="load-key training"></i> training, <i class="load-key practice"></i> practice, <i class="load-key matches"></i> matches, <i class="load-key limit"></i> weekly rise limit.
  Readiness: <i class="line-key goal"></i> target, <i class="line-key now"></i> planned${state.edits.length > 0 && html`, <i class="line-key was"></i> on file`}.
  ${" "}<span class="hint">Drag a match along the days, or choose it and press M, arrow keys (up and down: a week), Enter.</span>
</p>`;
