// What the page knows: the server's state, and what only this tab chooses to look at.
const ui = {
  zoom: "season", // season, month or week
  tab: "changes", // of the panel: changes, rules, versions or print
  chosen: null, // {kind: "match", date} | {kind: "cell", week, quality} | {kind: "week", week} | {kind: "add", date}
  trouble: "", // what went wrong, in words
  shown: "", // lines to look at beside it
  doubts: null, // {words, again}: a change that is asked about first
  mix: 100, // per cent of the way from the plan on file to the one after the changes
  palette: false,
  print: false,
  touching: [], // weeks that a change on its way touches
  draft: null, // a fixture list that was read
};

export const store = { state: null, ui, draw: () => {} };

export const look = (patch) => {
  Object.assign(store.ui, patch);
  store.draw();
};

export const choose = (chosen) => look({ chosen });

export const take = (state) => {
  store.state = state;
  store.draw();
};
