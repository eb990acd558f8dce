// A season in small: its blocks by quality, and planned readiness against the target.
import { html } from "./html.js";

const ROW = 9, READY = 46, GAP = 4;

export const Chart = ({ name, chart, peaks, first }) => {
  const weeks = chart.ready.length, top = chart.rows.length * ROW + GAP;
  const y = (value) => top + READY * (1 - value / 100);
  const line = chart.ready.map((value, at) => `${at + 0.5},${y(value)}`).join(" ");
  const week = (date) => (Date.parse(date) - Date.parse(first)) / 6048e5;
  return html`<svg class="small-chart" viewBox=${`0 0 ${weeks} ${top + READY}`} preserveAspectRatio="none" role="img" aria-label=${`${name}: planned readiness ${peaks.map((peak) => `${peak.name} ${peak.ready} of ${peak.target}`).join(", ")}`}>
    ${chart.rows.map((row, at) => row.bars.map(([from, to, colour]) => html`<rect key=${`${at} ${from}`} x=${from - 1} width=${to - from + 1} y=${at * ROW} height=${ROW - 1} fill=${colour}><title>${row.name}</title></rect>`))}
    ${chart.target.map((value, at) => html`<line key=${at} class="goal" x1=${at + 0.1} x2=${at + 0.9} y1=${y(value)} y2=${y(value)} />`)}
    ${peaks.map((peak) => html`<line key=${peak.date} class="at-peak" x1=${week(peak.date)} x2=${week(peak.date)} y1="0" y2=${top + READY} />`)}
    <polyline class="now" points=${line} />
  </svg>`;
};
