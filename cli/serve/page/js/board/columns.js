// What goes through the board from top to bottom: closed weeks, the end of what is over, today.
import { said } from "../dates.js";
import { html } from "../html.js";
import { at, left, span } from "./scale.js";

export const Columns = ({ state, chosen }) => html`<div class="columns" aria-hidden="true">
  ${state.weeks.filter((week) => week.closed).map((week) => html`<div key=${week.number} class="closed" style=${span(week.number - 1, 1)}></div>`)}
  ${state.over > 0 && html`<div class="past" style=${span(0, state.over)}></div>`}
  ${chosen?.week && html`<div class="picked" style=${span(chosen.week - 1, 1)}></div>`}
  ${state.today && html`<div class="today" style=${{ "--day": left(at(state, state.today) + 0.5 / 7) }}><span>today, ${said(state.today)}</span></div>`}
</div>`;
