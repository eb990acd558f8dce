// Dragging along the days: the board scrolls where the pointer comes to its edge. A finger picks up
// what it rests on for a moment; before that it scrolls, as anywhere on the board.
import { apart, shifted } from "../dates.js";

let ended = -Infinity;

// The click that follows a drag chooses nothing.
export const justDragged = () => performance.now() - ended < 100;

const STILL = 4, EDGE = 48, STEP = 14, HOLD = 300, SHAKY = 8;

export const grasp = (event, { day, w, state, over, end, leave }) => {
  if (event.button) return;
  const node = event.currentTarget, board = node.closest(".board");
  const start = { x: event.clientX, y: event.clientY, scroll: board.scrollLeft };
  let to = day, moved = false, x = event.clientX, y = event.clientY, frame = 0;
  let held = event.pointerType !== "touch", scrolled = false;
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
  const pickUp = () => { held = true; start.x = x; follow(); };
  const wait = held ? 0 : setTimeout(pickUp, HOLD);
  const pan = (each) => {
    if (!scrolled && Math.hypot(each.clientX - start.x, each.clientY - start.y) < SHAKY) return;
    clearTimeout(wait);
    scrolled = true;
    board.scrollBy(x - each.clientX, 0);
    window.scrollBy(0, y - each.clientY);
  };
  const move = (each) => {
    if (!held) pan(each);
    x = each.clientX;
    y = each.clientY;
    if (!held) return;
    if (moved || Math.abs(x - start.x) > STILL) follow();
  };
  const done = (keep) => {
    cancelAnimationFrame(frame);
    clearTimeout(wait);
    removeEventListener("contextmenu", menu);
    removeEventListener("pointermove", move);
    removeEventListener("pointerup", up);
    removeEventListener("pointercancel", cancel);
    removeEventListener("keydown", escape, true);
    if (scrolled) ended = performance.now();
    if (!moved) return;
    ended = performance.now();
    if (keep) end(to); else leave();
  };
  const up = () => done(true), cancel = () => done(false);
  const escape = (each) => { if (each.key === "Escape") { each.preventDefault(); done(false); } };
  const menu = (each) => each.preventDefault(); // which a finger that rests would open
  if (!held) addEventListener("contextmenu", menu);
  addEventListener("pointermove", move);
  addEventListener("pointerup", up);
  addEventListener("pointercancel", cancel);
  addEventListener("keydown", escape, true);
  frame = requestAnimationFrame(scroll);
};
