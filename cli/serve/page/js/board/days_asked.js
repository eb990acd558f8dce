// Days of the weeks in sight, asked for week by week as they come into view; those that were
// looked at stay until the plan changes.
import { useEffect, useState } from "preact/hooks";
import { read } from "../talk.js";

const PAUSE = 120;

const inSight = (board, weeks) => {
  const w = Number(board.querySelector(".sheet").dataset.w);
  const first = Math.floor(board.scrollLeft / w) + 1;
  const last = Math.ceil((board.scrollLeft + board.clientWidth) / w) + 1;
  return weeks.filter((week) => !week.closed && week.planned && first <= week.number && week.number <= last).map((week) => week.number);
};

export const useDays = (state) => {
  const [found, setFound] = useState({ version: null, weeks: {} });
  useEffect(() => {
    const board = document.querySelector(".board");
    if (!board || state.stale) return undefined;
    const known = {};
    let waiting = 0, here = true, busy = false;
    const ask = async () => {
      if (busy) return;
      busy = true;
      for (let next = 0; here && next !== undefined;) {
        next = inSight(board, state.weeks).find((number) => !known[number]);
        if (next === undefined) break;
        known[next] = [];
        const told = await read(`days?first=${next}&last=${next}`).catch(() => ({}));
        Object.assign(known, told);
        if (here) setFound({ version: state.version, weeks: { ...known } });
      }
      busy = false;
    };
    const soon = () => { clearTimeout(waiting); waiting = setTimeout(ask, PAUSE); };
    soon();
    board.addEventListener("scroll", soon);
    return () => { here = false; clearTimeout(waiting); board.removeEventListener("scroll", soon); };
  }, [state.version]);
  return found.version === state.version ? found.weeks : {};
};
