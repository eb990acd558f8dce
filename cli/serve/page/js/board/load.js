import { html } from "../html.js";
import { Row } from "./row.js";

const H = 60;
const PARTS = ["training", "practice", "matches"];

// Load of each week in its three parts, and the most the weekly rise limit allows.
const Columns = ({ weeks, all, top, kind }) => {
  const y = (value) => H - (H * Math.min(value, top)) / top;
  const column = (week) => {
    let below = 0;
    return PARTS.map((part) => {
      const from = below;
      below += week.load[part];
      return week.load[part] > 0 && html`<rect key=${`${week.number} ${part}`} class=${part} x=${week.number - 0.88} width="0.76" y=${y(below)} height=${Math.max(0, y(from) - y(below))} />`;
    });
  };
  const words = weeks.map((week) => `${week.number} ${week.load.total}`).join(", ");
  return html`<svg class=${kind} viewBox=${`0 0 ${all} ${H}`} preserveAspectRatio="none" role="img" aria-label=${`Load by week in AU, with practice and matches: ${words}`}>
    ${weeks.map(column)}
    ${weeks.map((week) => week.limit !== null && week.limit <= top && html`<line key=${`${week.number} most`} class="limit" x1=${week.number - 0.95} x2=${week.number - 0.05} y1=${y(week.limit)} y2=${y(week.limit)} />`)}
  </svg>`;
};

export const Load = ({ state, before }) => {
  const weeks = state.weeks.filter((week) => week.planned), then = before ? before.weeks.filter((week) => week.planned) : [];
  if (!weeks.length) return null;
  const most = Math.max(1, ...[...weeks, ...then].map((week) => week.load.total)), all = state.weeks.length, top = 1.05 * most;
  return html`<${Row} name=${html`Load, AU<small>top ${most}</small>`} kind="load">
    ${before && html`<${Columns} weeks=${then} all=${all} top=${top} kind="before" />`}
    <${Columns} weeks=${weeks} all=${all} top=${top} kind="after" />
  <//>`;
};
