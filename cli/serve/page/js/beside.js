// Versions that were kept, one a column.
import { brief, told } from "./dates.js";
import { Chart } from "./chart.js";
import { html } from "./html.js";
import { act } from "./talk.js";

const value = (number) => (number === null ? "none" : number.toFixed(1));

export const Beside = ({ kept, first }) => {
  if (!kept.length) return null;
  const peaks = kept[0].peaks;
  return html`<section aria-labelledby="beside-title"><h3 id="beside-title">Versions side by side</h3><div class="scroll" tabindex="0" role="region" aria-label="Table of versions"><table class="beside"><thead><tr><th scope="col"></th>${kept.map((each) => html`<th key=${each.name} scope="col"><bdi>${each.name}</bdi></th>`)}</tr></thead><tbody>
    <tr><th scope="row">Season<small>blocks, readiness against target</small></th>${kept.map((each) => html`<td key=${each.name}><${Chart} name=${each.name} chart=${each.chart} peaks=${each.peaks} first=${first} /></td>`)}</tr>
    <tr><th scope="row">Match score</th>${kept.map((each) => html`<td key=${each.name} class="n">${value(each.score)}</td>`)}</tr>
    ${peaks.map((peak) => html`<tr key=${peak.date}><th scope="row">${peak.sign} <bdi>${peak.name}</bdi></th>${kept.map((each) => {
      const here = each.peaks.find((other) => other.name === peak.name);
      return html`<td key=${each.name} class="n">${here ? `${value(here.ready)}` : "\u2013"}${here && here.date !== peak.date ? html`<br /><small>${brief(here.date)}</small>` : ""}</td>`;
    })}</tr>`)}
    <tr><th scope="row">Price of the season<small>points of readiness and of what is wanted, missed; lower is better</small></th>${kept.map((each) => html`<td key=${each.name} class="n">${value(each.cost)}</td>`)}</tr>
    <tr><th scope="row">Cells that differ</th>${kept.map((each) => html`<td key=${each.name} class="n">${each.cells}</td>`)}</tr>
    <tr><th scope="row">How good</th>${kept.map((each) => html`<td key=${each.name}>${each.proof}</td>`)}</tr>
    <tr><th scope="row">Changes</th>${kept.map((each) => html`<td key=${each.name}><ul class="plain">${each.words.map((words) => html`<li key=${words}>${told(words)}</li>`)}</ul></td>`)}</tr>
    <tr><th scope="row"><span class="quiet">What to do</span></th>${kept.map((each, at) => html`<td key=${each.name}>${at > 0 && html`<button type="button" class="small" onClick=${() => act("use", { name: each.name })}>Show</button> <button type="button" class="small" onClick=${() => act("forget", { name: each.name })}>Forget</button>`}</td>`)}</tr>
  </tbody></table></div><p class="hint">Readiness is planned, in points at the match.</p></section>`;
};
