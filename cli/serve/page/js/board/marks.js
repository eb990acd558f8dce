import { html } from "../html.js";
import { Row } from "./row.js";
import { span } from "./scale.js";

const KINDS = [["deload", "D", "deload"], ["taper", "T", "taper"], ["retest", "R", "test"]];
const has = (week, key) => (Array.isArray(week[key]) ? week[key].length > 0 : week[key]);

// Weeks that are lighter or have tests: a letter each, the word where there is room.
export const Marks = ({ state, zoom }) => html`<${Row} name="Lighter, tests" kind="marks">
  ${state.weeks.map((week, index) => {
    const here = KINDS.filter(([key]) => has(week, key));
    return here.length > 0 && html`<span key=${week.number} class="mark" style=${span(index, 1)} title=${here.map(([, , name]) => name).join(", ")}>${here.map(([, letter, name]) => (zoom === "season" ? letter : name)).join(zoom === "season" ? "" : ", ")}</span>`;
  })}
<//>`;
