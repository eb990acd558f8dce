// The season's weeks with a handle where each phase begins; the handles are sliders.
import { brief, shifted } from "../dates.js";
import { html } from "../html.js";

const percent = (part) => `${(100 * part).toFixed(3)}%`;

export const PhaseBar = ({ found, starts, set }) => {
  const ends = (index) => (index + 1 < starts.length ? starts[index + 1].first_week - 1 : found.weeks);
  const move = (index, week) => {
    const low = starts[index - 1].first_week + 1, high = ends(index);
    set(starts.map((each, at) => (at === index ? { ...each, first_week: Math.max(low, Math.min(high, week)) } : each)));
  };
  const pull = (event, index) => {
    const bar = event.currentTarget.parentElement, node = event.currentTarget;
    event.preventDefault();
    node.focus();
    node.setPointerCapture(event.pointerId);
    node.onpointermove = (each) => {
      const box = bar.getBoundingClientRect();
      move(index, Math.round(((each.clientX - box.left) / box.width) * found.weeks) + 1);
    };
    node.onpointerup = () => { node.onpointermove = null; };
  };
  const keys = (event, index) => {
    const step = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (step) { event.preventDefault(); move(index, starts[index].first_week + step); }
  };
  return html`<div class="phase-bar">
    ${starts.map((start, index) => html`<span key=${`${index}-${start.phase}`} class=${`phase ${start.phase}`} style=${{ left: percent((start.first_week - 1) / found.weeks), width: percent((ends(index) - start.first_week + 1) / found.weeks) }} title=${start.phase}><span class="label">${start.phase} </span>${ends(index) - start.first_week + 1}</span>`)}
    ${starts.map((start, index) => index > 0 && html`<span key=${`h${index}`} class="handle" role="slider" tabindex="0" aria-label=${`${start.phase} begins in week`} aria-valuemin=${starts[index - 1].first_week + 1} aria-valuemax=${ends(index)} aria-valuenow=${start.first_week}
      aria-valuetext=${`week ${start.first_week}, ${brief(shifted(found.first, 7 * (start.first_week - 1)))}`} style=${{ left: percent((start.first_week - 1) / found.weeks) }} onPointerDown=${(event) => pull(event, index)} onKeyDown=${(event) => keys(event, index)}></span>`)}
    ${found.fixtures.map((match) => html`<i key=${match.date} class="tick" style=${{ left: percent((Date.parse(match.date) - Date.parse(found.first)) / 6048e5 / found.weeks) }}></i>`)}
  </div>`;
};
