// Every command by its words: Ctrl+K, a few letters, Enter.
import { useEffect, useRef, useState } from "preact/hooks";
import { said } from "./dates.js";
import { html } from "./html.js";
import { look } from "./store.js";
import { act, exported } from "./talk.js";
import { undo } from "./undo.js";

const MOST = 12;

const commands = (state) => [
  ["Undo", () => undo(state)],
  ["Redo", () => act("redo")],
  ["Take every change back", () => act("all-back")],
  ["Save", () => act("save")],
  [state.solving ? "Stop the search" : "Go on searching", () => act(state.solving ? "stop" : "go-on")],
  ["Prove that no better plan can exist", () => act("prove")],
  ["Zoom: season", () => look({ zoom: "season" })],
  ["Zoom: months", () => look({ zoom: "month" })],
  ["Zoom: weeks, days and hours", () => look({ zoom: "week" })],
  ["Add a match", () => look({ chosen: { kind: "add" } })],
  ["Add a break: rest, exams, camp, bye", () => look({ chosen: { kind: "break", days: { first: state.first, last: state.first } } })],
  ["Rules", () => look({ tab: "rules", chosen: null })],
  ["Changes and what they do", () => look({ tab: "changes", chosen: null })],
  ["Versions and history", () => look({ tab: "versions", chosen: null })],
  ["Print and export", () => look({ tab: "print", chosen: null })],
  ["Print this page", () => setTimeout(() => print(), 50)],
  ["Wall chart and week sheets (PDF)", () => open(exported("pdf"), "_blank")],
  ["Plan on: least change or best", () => { look({ tab: "versions", chosen: null }); act("ways"); }],
  ...state.fixtures.map((match) => [`Match ${said(match.date)} ${match.name}`, () => look({ chosen: { kind: "match", date: match.date } })]),
  ...state.weeks.map((week) => [`Week ${week.number}, ${said(week.monday)}`, () => look({ chosen: { kind: "week", week: week.number } })]),
  ...state.rules.map((rule) => [`Rule: ${rule.title}`, () => look({ tab: "rules", chosen: null, rule: rule.name })]),
];

export const Palette = ({ state, ui }) => {
  const [words, setWords] = useState("");
  const [at, setAt] = useState(0);
  const box = useRef();
  useEffect(() => {
    if (ui.palette && box.current && !box.current.open) { setWords(""); setAt(0); box.current.showModal(); }
  }, [ui.palette]);
  if (!ui.palette) return null;
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  const found = commands(state).filter(([name]) => wanted.every((part) => name.toLowerCase().includes(part))).slice(0, MOST);
  const run = (index) => { look({ palette: false }); found[index]?.[1](); };
  const keys = (event) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step) { event.preventDefault(); setAt((at + step + found.length) % Math.max(1, found.length)); }
    if (event.key === "Enter") { event.preventDefault(); run(at); }
  };
  return html`<dialog ref=${box} class="palette" aria-label="Commands" onClose=${() => look({ palette: false })}>
    <input type="text" role="combobox" aria-label="Command" aria-expanded="true" aria-controls="found" aria-activedescendant=${found.length ? `found-${at}` : undefined} autofocus
      value=${words} onInput=${(event) => { setWords(event.target.value); setAt(0); }} onKeyDown=${keys} placeholder="A match, a week, a rule, save, print" />
    <ul id="found" role="listbox" aria-label="Found">${found.map(([name, run_], index) => html`<li key=${name} id=${`found-${index}`} role="option" aria-selected=${index === at} onClick=${() => run(index)}>${name}</li>`)}</ul>
    ${!found.length && html`<p class="soft">Nothing of that name.</p>`}
  </dialog>`;
};
