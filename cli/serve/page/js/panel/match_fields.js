import { html } from "../html.js";

export const RANKS = [["peak", "★ Peak"], ["high", "◆ High"], ["medium", "▲ Medium"], ["low", "○ Low"]];
const VENUES = [["", "not said"], ["home", "home"], ["away", "away"], ["neutral", "neutral"]];

export const MatchFields = ({ draft, set }) => html`
  <label>Opponent <input name="opponent" maxlength="200" value=${draft.opponent} onInput=${(event) => set({ opponent: event.target.value })} /></label>
  <label>Competition <input name="competition" maxlength="200" value=${draft.competition} onInput=${(event) => set({ competition: event.target.value })} /></label>
  <label>Kick-off <input type="time" name="kickoff" value=${draft.kickoff || ""} onInput=${(event) => set({ kickoff: event.target.value })} /></label>
  <label>Venue <select name="venue" value=${draft.venue} onChange=${(event) => set({ venue: event.target.value })}>${VENUES.map(([value, words]) => html`<option key=${value} value=${value}>${words}</option>`)}</select></label>
  <label>Travel, hours one way <input type="number" name="travel" min="0" max="48" step="0.25" value=${draft.travel} onInput=${(event) => set({ travel: event.target.value })} /></label>`;
