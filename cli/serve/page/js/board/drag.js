// Dragging a match along the days: the board scrolls where the pointer comes to its edge.
import { apart, shifted } from "../dates.js";

let ended = -Infinity;

// The click that follows a drag chooses nothing.
export const justDragged = () => performance.now() - ended < 100;

const STILL = 4, EDGE = 48, STEP = 14;

export const grasp = (event, { day, w, state, over, end, leave }) => {
  if (event.button || event.pointerType === "touch") return; // a finger scrolls; it moves matches in the panel
  const node = event.currentTarget, board = node.closest(".board");
  const start = { x: event.clientX, scroll: board.scrollLeft };
  let to = day, moved = false, x = event.clientX, frame = 0;
  const last = 7 * state.weeks.length - 1, from = apart(state.first, day);
  const follow = () => {
    const days = Math.round(((x - start.x + board.scrollLeft - start.scroll) / w) * 7);
    const found = shifted(state.first, Math.max(0, Math.min(last, from + days)));
    if (found !== to || !moved) { to = found; moved = true; over(to); }
  };
  const scroll = () => {
    const box = board.getBoundingClientRect();
    const by = x > box.right - EDGE ? STEP : x < box.left + EDGE + 80 ? -STEP : 0;
    if (moved && by) { board.scrollLeft += by; follow(); }
    frame = requestAnimationFrame(scroll);
  };
  const move = (each) => {
    x = each.clientX;
    if (moved || Math.abs(x - start.x) > STILL) follow();
  };
  const done = (keep) => {
    cancelAnimationFrame(frame);
    removeEventListener("pointermove", move);
    removeEventListener("pointerup", up);
    removeEventListener("pointercancel", cancel);
    removeEventListener("keydown", escape, true);
    if (!moved) return;
    ended = performance.now();
    if (keep) end(to); else leave();
  };
  const up = () => done(true), cancel = () => done(false);
  const escape = (each) => { if (each.key === "Escape") { each.preventDefault(); done(false); } };
  addEventListener("pointermove", move);
  addEventListener("pointerup", up);
  addEventListener("pointercancel", cancel);
  addEventListener("keydown", escape, true);
  frame = requestAnimationFrame(scroll);
};
