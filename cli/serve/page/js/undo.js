// Undo takes back the last step; where there is none, what was written last, and asks first.
import { act } from "./talk.js";

export const undo = (state) => {
  if (!state.undo) {
    const last = state.versions.find((each) => each.stands);
    const words = last ? `${last.action}: ${last.words}` : "the last save";
    if (!confirm(`Nothing is changed here since. Take back what was written last (${words})?`)) return;
  }
  act("undo");
};
