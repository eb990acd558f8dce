// One stop of the tab key for many things in a row; arrows go from one to the next.
const STEPS = { ArrowLeft: -1, ArrowRight: 1, Home: -Infinity, End: Infinity };

export const rove = (event) => {
  const step = STEPS[event.key];
  if (step === undefined || event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey) return;
  const all = [...event.currentTarget.querySelectorAll("[data-stop]")];
  const at = all.indexOf(document.activeElement);
  if (at < 0) return;
  event.preventDefault();
  const next = all[Math.max(0, Math.min(all.length - 1, at + step))];
  for (const each of all) each.tabIndex = each === next ? 0 : -1;
  next.focus();
  next.scrollIntoView({ block: "nearest", inline: "nearest" });
};

export const stop = (first) => ({ "data-stop": true, tabIndex: first ? 0 : -1 });
