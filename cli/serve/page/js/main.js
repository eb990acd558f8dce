import { render } from "preact";
import { html } from "./html.js";
import { App } from "./app.js";
import { look, store } from "./store.js";
import { act, keepFollowing, refresh } from "./talk.js";
import { undo } from "./undo.js";

const root = document.getElementById("root");
store.draw = () => {
  const name = store.state?.place === "season" ? `${store.state.name}: change the season` : "Start a season";
  if (document.title !== name) document.title = name;
  render(html`<${App} state=${store.state} ui=${store.ui} key="app" />`, root);
};

const typing = (node) => node.closest?.("input, textarea, select, [contenteditable]");
addEventListener("keydown", (event) => {
  const command = event.ctrlKey || event.metaKey;
  if (command && event.key.toLowerCase() === "k") {
    event.preventDefault();
    look({ palette: !store.ui.palette });
  } else if (command && event.key.toLowerCase() === "z" && !typing(event.target) && store.state?.place === "season") {
    event.preventDefault();
    if (event.shiftKey) act("redo");
    else undo(store.state);
  } else if (event.key === "Escape" && !event.defaultPrevented && (store.ui.palette || store.ui.chosen)) {
    look(store.ui.palette ? { palette: false } : { chosen: null });
  }
});
// paper has a width of its own: the board is drawn for it, and again for the screen after
addEventListener("beforeprint", () => look({ print: true }));
addEventListener("afterprint", () => look({ print: false }));

root.replaceChildren();
await refresh();
keepFollowing();
