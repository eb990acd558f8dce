import { html } from "../html.js";
import { Row } from "./row.js";
import { left } from "./scale.js";

const H = 96, STEP = 20;
const GREAT = ["peak", "high"];

// Planned readiness against its target; what is on file is dashed, once something was changed.
export const Ready = ({ state }) => {
  const weeks = state.weeks;
  const values = weeks.flatMap((week) => [week.target, week.ready, week.was]).filter((value) => value !== null && value !== undefined);
  const low = Math.max(0, Math.floor(Math.min(100, ...values) / STEP) * STEP);
  const y = (value) => 4 + (H - 8) * (1 - (value - low) / (100 - low));
  const line = (key) => weeks.filter((week) => week[key] !== null && week[key] !== undefined).map((week) => `${week.number - 0.5},${y(week[key])}`).join(" ");
  const great = weeks.filter((week) => week.planned && state.fixtures.some((match) => match.week === week.number && GREAT.includes(match.priority)));
  const told = weeks.filter((week) => week.planned).map((week) => `${week.number} ${Math.round(week.ready)} of ${week.target}`).join(", ");
  const levels = [];
  for (let level = low; level <= 100; level += STEP) levels.push(level);
  return html`<${Row} name=${html`Planned readiness<small>${low} to 100</small>`} kind="ready">
    <svg viewBox=${`0 0 ${weeks.length} ${H}`} preserveAspectRatio="none" role="img" aria-label=${`Planned readiness by week, and its target: ${told}`}>
      ${levels.map((level) => html`<line key=${`l${level}`} class="level" x1="0" x2=${weeks.length} y1=${y(level)} y2=${y(level)} />`)}
      ${weeks.map((week) => !week.closed && html`<line key=${week.number} class="goal" x1=${week.number - 0.9} x2=${week.number - 0.1} y1=${y(week.target)} y2=${y(week.target)} />`)}
      ${weeks[0].was !== null && html`<polyline class="was" points=${line("was")} />`}
      <polyline class="now after" points=${line("ready")} />
    </svg>
    ${great.map((week) => html`<span key=${week.number} class="figure" style=${{ left: left(week.number - 0.5), top: `${(100 * y(week.ready)) / H}%` }} title=${`Week ${week.number}: planned ${week.ready}, target ${week.target}`}>${Math.round(week.ready)}</span>`)}
  <//>`;
};
