import { html } from "./html.js";
import { look } from "./store.js";
import { act } from "./talk.js";
import { undo } from "./undo.js";

const told = (proof) => proof.replace(/^within (.*)$/, "no other can be more than $1 better");

// A search that was cut short knows no bound: then it is said that nothing is known.
const how = (state) => (state.proof === "not bounded" ? "; how good it is, is not known yet" : `: ${told(state.proof)}`);

const standing = (state) => {
  if (state.over === state.weeks.length) return "All weeks of this season are over: nothing is left to plan.";
  if (state.clash) return "No plan keeps all the rules.";
  const kind = state.provisional ? "Provisional plan" : "Plan found";
  return state.proof ? `${kind}${how(state)}.` : "";
};

const status = (state) => {
  const took = state.solving && `${state.solving.seconds.toFixed(0)} s`;
  if (state.solving && state.provisional) return `Refining a provisional plan${how(state)}, ${took}`;
  if (state.solving) return `${state.solving.words}, ${took}`;
  const also = !state.told || /^(Saved|As on file|Taken back|Done again)/.test(state.told);
  return [state.told, also && !state.stale && standing(state), !state.told && state.stale && standing(state)].filter(Boolean).join(" ");
};

const goesOn = (state) => !state.solving && !state.clash && (state.stale || state.provisional);

const unproven = (state) => !state.solving && !state.stale && !state.provisional && state.proof.startsWith("within");

const away = (state) => {
  if (!state.can_save || !state.edits.length || confirm("There are changes that are not saved. Leave them?")) {
    look({ chosen: null, draft: null, zoom: "season" });
    act("away");
  }
};

export const Head = ({ state, ui }) => html`<header class="head">
  <div class="title">
    <button type="button" class="plain" onClick=${() => away(state)}>All seasons</button>
    <h1><bdi>${state.name}</bdi></h1>
    ${state.sport && html`<span class="soft">${state.sport}</span>`}
  </div>
  <div class="tools" role="toolbar" aria-label="Changes">
    <button type="button" onClick=${() => undo(state)} title="Ctrl+Z; after a save, takes the save back">Undo</button>
    <button type="button" onClick=${() => act("redo")} title="Ctrl+Shift+Z">Redo</button>
    <button type="button" disabled=${!state.edits.length} onClick=${() => act("all-back")}>All back</button>
    <button type="button" onClick=${() => look({ palette: !ui.palette })} title="Ctrl+K">Commands</button>
    <button type="button" id="save" class="main" disabled=${!state.can_save && !state.solving} onClick=${() => act("save")}>${state.saving ? "Saves when ready" : "Save"}</button>
  </div>
  <div class="line">
    <p id="line" role="status" class=${state.solving ? "busy" : ""}>${status(state)}</p>
    ${state.solving && html`<button type="button" id="stop" onClick=${() => act("stop")}>Stop</button>`}
    ${goesOn(state) && html`<button type="button" id="go-on" onClick=${() => act("go-on")}>Go on</button>`}
    ${unproven(state) && html`<button type="button" id="prove" class="small" title="Search until no better plan can exist; a year can take minutes" onClick=${() => act("prove")}>Prove it</button>`}
    ${state.asking && html`<span class="busy soft">${state.asking.words}, ${state.asking.seconds.toFixed(0)} s</span>
      <button type="button" onClick=${() => act("ask-no-more")}>Leave it</button>`}
  </div>
</header>`;
