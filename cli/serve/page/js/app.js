import { html } from "./html.js";
import { Season } from "./season.js";
import { Start } from "./start/start.js";
import { Trouble } from "./trouble.js";

export const App = ({ state, ui }) => {
  if (!state) return html`<main id="main"><${Trouble} ui=${ui} /></main>`;
  return state.place === "start" ? html`<${Start} state=${state} ui=${ui} />` : html`<${Season} state=${state} ui=${ui} />`;
};
