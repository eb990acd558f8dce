// Talking to the program: reading, doing, and following what it works on.
import { touchedBy } from "./board/ripple.js";
import { look, store, take } from "./store.js";

const token = document.querySelector("meta[name=page]").content;
const ENDED = "The program that shows this page has ended. Start it again, then load this page anew.";
const SOON = 300, LATER = 2500;

class Refusal extends Error {
  constructor(told, status) {
    super(told.error || "That did not work.");
    this.told = told;
    this.status = status;
  }
}

const answered = async (asked) => {
  const answer = await asked.catch(() => null);
  if (!answer) throw new Refusal({ error: ENDED }, 0);
  const told = await answer.json().catch(() => ({}));
  if (!answer.ok) throw new Refusal(told, answer.status);
  return told;
};

export const read = (path) => answered(fetch(path));

const post = (path, body) => answered(fetch(path, { method: "POST", headers: { "X-Page": token }, body }));

export const exported = (kind, week) => `export/${kind}?t=${encodeURIComponent(token)}${week ? `&week=${week}` : ""}`;

const trouble = (error) => look({ trouble: error.message, shown: error.told?.shown || "" });

// Do something with the season as this tab shows it.
export const act = async (action, data = {}) => {
  look({ trouble: "", shown: "", doubts: null });
  const revision = store.state?.revision;
  try {
    take(await post(`do/${action}`, JSON.stringify({ revision, ...data })));
    return true;
  } catch (error) {
    if (error.told?.doubts) {
      look({ doubts: { words: error.told.doubts, again: () => act(action, { ...data, sure: true }) } });
      return false;
    }
    trouble(error);
    if (error.told?.stale) await refresh();
    return false;
  }
};

// What a change touches is drawn before the program has answered.
export const edit = async (...edits) => {
  if (store.state?.weeks) look({ touching: touchedBy(store.state, edits) });
  const done = await act("edit", { edits });
  look({ touching: [] });
  return done;
};

// Do something that does not answer with the state, such as reading a list.
export const fetched = async (path, body) => {
  look({ trouble: "", shown: "" });
  try {
    return await post(path, body);
  } catch (error) {
    trouble(error);
    return null;
  }
};

export const refresh = async () => {
  try {
    take(await read("state"));
  } catch (error) {
    trouble(error);
  }
};

const follow = async () => {
  const state = store.state;
  try {
    const told = await read("progress");
    if (state !== store.state) return;
    if (told.version !== (state.version ?? -1)) await refresh();
    else if (told.solving || told.asking || state.solving || state.asking) take({ ...state, ...told });
  } catch (error) {
    if (store.ui.trouble !== error.message) trouble(error);
  }
};

export const keepFollowing = async () => {
  // a tab that comes back into sight shows what other tabs did before it is used
  addEventListener("visibilitychange", () => { if (store.state && !document.hidden) follow(); });
  for (;;) {
    const busy = store.state && (store.state.solving || store.state.asking);
    await new Promise((go) => setTimeout(go, busy ? SOON : LATER));
    if (store.state && !document.hidden) await follow();
  }
};
