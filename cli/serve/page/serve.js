(() => {
  const token = document.querySelector("meta[name=page]").content;
  const by = (id) => document.getElementById(id);
  const make = (tag, more = {}, ...inside) => {
    const made = document.createElement(tag);
    for (const [key, value] of Object.entries(more)) {
      if (key === "class") made.className = value;
      else if (key.startsWith("--")) made.style.setProperty(key, value);
      else if (key in made && key !== "style") made[key] = value;
      else made.setAttribute(key, value);
    }
    made.append(...inside);
    return made;
  };
  const DAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
  const HEAD = 3, CURVE = 4;
  let state = null, drag = null, polling = null, refocus = null;

  // --- talking to the program --------------------------------------------------------------

  const ask = async (path, data) => {
    const how = data === undefined ? {} : {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Page": token },
      body: JSON.stringify(data),
    };
    const answer = await fetch(path, how).catch(() => null);
    if (!answer) throw new Error("The program that shows this page has ended.");
    const told = await answer.json();
    if (!answer.ok) throw new Error(told.error || "That did not work.");
    return told;
  };
  const tell = (words) => { by("trouble").textContent = words; by("trouble").hidden = !words; };
  const send = async (path, data) => {
    tell("");
    try { show(await ask(path, data)); } catch (error) { tell(error.message); if (state) show(state); }
  };
  const poll = async () => {
    polling = null;
    try {
      const told = await ask("/progress");
      if (told.version !== state.version || !told.solving) show(await ask("/state"));
      else { state.solving = told.solving; line(); }
    } catch (error) { tell(error.message); return; }
    follow();
  };
  const follow = () => { if (state.solving && !polling) polling = setTimeout(poll, 250); };

  // --- showing -----------------------------------------------------------------------------

  const show = (told) => {
    state = told;
    if (drag) drag = null;
    scores(); line(); board(); forms(); edits(); difference(); follow();
  };

  const line = () => {
    const solving = state.solving;
    const proof = state.proof ? `Plan found: ${state.proof}.` : "";
    by("line").textContent = solving
      ? `${solving.words}, ${solving.seconds.toFixed(1)} s`
      : state.told || proof;
    by("line").classList.toggle("busy", Boolean(solving));
    by("stop").hidden = !solving;
    by("save").disabled = !state.can_save;
  };

  const signed = (value) => (value > 0 ? "+" : "") + value.toFixed(1);
  const scores = () => by("scores").replaceChildren(...state.scores.map((row) => {
    const value = row.now ?? row.was;
    const told = make("dd", {}, value === null ? "none" : value.toFixed(1));
    if (state.edits.length && row.now !== null && row.was !== null) {
      told.append(" ", make("small", {}, `${signed(row.now - row.was)}, on file ${row.was.toFixed(1)}`));
    }
    return make("div", {}, make("dt", {}, row.name), told);
  }));

  const board = () => {
    const weeks = state.weeks;
    const grid = make("div", { class: `board${state.stale ? " stale" : ""}` });
    grid.style.gridTemplateColumns = `max-content repeat(${weeks.length}, minmax(1.45rem, 1fr))`;
    grid.style.minWidth = `${8 + 1.45 * weeks.length}rem`;
    const put = (row, column, node) => {
      node.style.setProperty("--r", row); node.style.setProperty("--c", column);
      grid.append(node); return node;
    };
    const name = (row, words) => put(row, 1, make("div", { class: "name" }, words));
    months(put);
    name(2, "Week");
    weeks.forEach((week, at) => put(2, at + 2, make("div", { class: "number" }, String(week.number))));
    DAYS.forEach((day, index) => name(HEAD + index, day));
    weeks.forEach((week, at) => DAYS.forEach((_, index) => {
      const date = shifted(week.monday, index);
      const off = week.breaks.some(([first, last, kind]) => kind === "rest" && first <= date && date <= last);
      put(HEAD + index, at + 2, make("div", { class: `day${off ? " off" : ""}`, title: off ? "closed" : "" }))
        .dataset.date = date;
    }));
    state.fixtures.forEach((fixture) => put(HEAD + fixture.day, fixture.week + 1, handle(fixture)));
    name(HEAD + 7, "Readiness");
    curve(grid);
    const first = HEAD + 7 + CURVE;
    state.qualities.forEach((quality, index) => {
      name(first + index, quality.name);
      quality.cells.forEach((cell, at) => cell.code && put(first + index, at + 2, box(quality, cell, at)));
    });
    by("board").replaceChildren(grid);
    if (refocus) {
      const again = grid.querySelector(`.fixture[data-date="${refocus}"]`);
      if (again) again.focus();
      refocus = null;
    }
  };

  const months = (put) => {
    let last = "";
    state.weeks.forEach((week, at) => {
      const month = new Date(`${week.monday}T12:00:00`).toLocaleDateString("en", { month: "short" });
      if (month !== last) put(1, at + 2, make("div", { class: "month" }, month));
      last = month;
    });
  };

  const box = (quality, cell, at) => {
    const was = cell.was ? `, on file ${cell.was}` : "";
    const words = `Week ${at + 1}, ${quality.name}: ${cell.code} ${cell.dose}${was}`;
    const made = make("div", {
      class: `cell ${cell.dose}${cell.was ? " diff" : ""}`, title: words, role: "img", "aria-label": words,
    }, cell.code);
    made.style.background = cell.colour;
    made.style.color = cell.text;
    return made;
  };

  const curve = (grid) => {
    const weeks = state.weeks, count = weeks.length;
    const holder = make("div", { class: "curve" });
    holder.style.gridColumn = "2 / -1";
    holder.style.setProperty("--r", `${HEAD + 7} / span ${CURVE}`);
    const space = "http://www.w3.org/2000/svg";
    const svg = document.createElementNS(space, "svg");
    const told = (key) => weeks.filter((w) => w[key] !== null).map((w) => `${w.number} ${Math.round(w[key])}`);
    svg.setAttribute("viewBox", `0 0 ${count * 10} 100`);
    svg.setAttribute("preserveAspectRatio", "none");
    svg.setAttribute("role", "img");
    svg.setAttribute("aria-label", `Readiness by week: ${told("ready").join(", ")}`);
    const add = (kind, more) => {
      const made = document.createElementNS(space, kind);
      for (const [key, value] of Object.entries(more)) made.setAttribute(key, value);
      made.setAttribute("vector-effect", "non-scaling-stroke");
      svg.append(made);
    };
    for (const level of [25, 50, 75]) add("line", { class: "rule", x1: 0, x2: count * 10, y1: 100 - level, y2: 100 - level });
    weeks.forEach((week, at) => week.closed || add("line", { class: "goal", x1: at * 10 + 1, x2: at * 10 + 9, y1: 100 - week.target, y2: 100 - week.target }));
    const points = (key) => weeks.map((week, at) => `${at * 10 + 5},${100 - (week[key] ?? 0)}`).join(" ");
    if (weeks[0].was !== null && state.edits.length) add("polyline", { class: "was", points: points("was") });
    if (weeks[0].ready !== null) add("polyline", { class: "now", points: points("ready") });
    holder.append(svg);
    grid.append(holder);
  };

  // --- moving a match ----------------------------------------------------------------------

  const iso = (date) => date.toISOString().slice(0, 10);
  const shifted = (day, by) => { const date = new Date(`${day}T12:00:00Z`); date.setUTCDate(date.getUTCDate() + by); return iso(date); };
  const place = (day) => Math.round((Date.parse(`${day}T12:00:00Z`) - Date.parse(`${state.first}T12:00:00Z`)) / 864e5);
  const said = (day) => new Date(`${day}T12:00:00`).toLocaleDateString("en-GB", { weekday: "short", day: "numeric", month: "short" });
  const say = (words) => { by("held").textContent = words; };

  const handle = (fixture) => {
    const made = make("button", {
      type: "button", class: `fixture ${fixture.priority}${fixture.new ? " new" : ""}`,
      title: `${fixture.said}: ${fixture.name}, ${fixture.priority}`,
      "aria-label": `${fixture.name}, ${fixture.priority}, ${fixture.said}`,
    }, fixture.sign);
    made.dataset.date = fixture.date;
    made.addEventListener("pointerdown", (event) => grasp(event, made, fixture));
    made.addEventListener("keydown", (event) => keys(event, made, fixture));
    made.addEventListener("blur", () => { if (drag && drag.byKey && drag.node === made && made.isConnected) drop(false); });
    return made;
  };

  const seat = (node, day) => {
    const at = place(day);
    node.style.setProperty("--r", HEAD + (at % 7)); node.style.setProperty("--c", Math.floor(at / 7) + 2);
  };
  const inside = (day) => place(day) >= 0 && place(day) < 7 * state.weeks.length;

  const lift = (node, fixture, byKey) => {
    drag = { node, fixture, to: fixture.date, byKey };
    node.classList.add("up");
    say(`${fixture.name} picked up on ${fixture.said}.`);
  };
  const over = (day) => {
    if (!drag || !day || !inside(day)) return;
    drag.to = day;
    seat(drag.node, day);
    say(`${drag.fixture.name}: ${said(day)}`);
  };
  const drop = (keep) => {
    const held = drag;
    drag = null;
    held.node.classList.remove("up");
    if (keep && held.to !== held.fixture.date) {
      refocus = held.byKey ? held.to : null;
      say(`${held.fixture.name} put down on ${said(held.to)}.`);
      send("/edit", { edit: "move", date: held.fixture.date, to: held.to });
    } else {
      seat(held.node, held.fixture.date);
      say(`${held.fixture.name} stays on ${held.fixture.said}.`);
    }
  };

  const grasp = (event, node, fixture) => {
    if (event.button) return;
    event.preventDefault();
    node.focus();
    if (drag) return;
    lift(node, fixture, false);
    node.setPointerCapture(event.pointerId);
    const move = (moved) => {
      const under = document.elementsFromPoint(moved.clientX, moved.clientY).find((each) => each.classList.contains("day"));
      if (under) over(under.dataset.date);
    };
    const end = (ended) => {
      node.removeEventListener("pointermove", move);
      node.removeEventListener("pointerup", end);
      node.removeEventListener("pointercancel", end);
      if (drag && drag.node === node) drop(ended.type === "pointerup");
    };
    node.addEventListener("pointermove", move);
    node.addEventListener("pointerup", end);
    node.addEventListener("pointercancel", end);
  };

  const STEPS = { ArrowLeft: -7, ArrowRight: 7, ArrowUp: -1, ArrowDown: 1 };
  const keys = (event, node, fixture) => {
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      if (drag) drop(true); else lift(node, fixture, true);
    } else if (drag && event.key === "Escape") {
      event.preventDefault();
      drop(false);
    } else if (drag && event.key in STEPS) {
      event.preventDefault();
      over(shifted(drag.to, STEPS[event.key]));
    }
  };

  // --- forms -------------------------------------------------------------------------------

  const fill = (select, pairs) => {
    const held = select.value;
    select.replaceChildren(...pairs.map(([value, words]) => make("option", { value }, words)));
    if (pairs.some(([value]) => String(value) === held)) select.value = held;
  };
  const forms = () => {
    fill(by("move").date, state.fixtures.map((f) => [f.date, `${f.said}, ${f.name}`]));
    by("move").to.min = state.first;
    by("move").to.max = shifted(state.first, 7 * state.weeks.length - 1);
    fill(by("close").week, state.weeks.map((w) => [w.number, `${w.number}, ${w.label}${w.closed ? ", closed" : ""}`]));
    fill(by("rule").rule, state.rules.filter((r) => r.parameters.length).map((r) => [r.name, r.name]));
    parameters();
  };
  const chosen = () => state.rules.find((rule) => rule.name === by("rule").rule.value);
  const parameters = () => {
    const rule = chosen();
    fill(by("rule").parameter, (rule ? rule.parameters : []).map((p) => [p.name, p.name]));
    by("rule-words").textContent = rule ? rule.words : "";
    value();
  };
  const value = () => {
    const rule = chosen();
    const found = rule && rule.parameters.find((p) => p.name === by("rule").parameter.value);
    if (found && document.activeElement !== by("rule").value) by("rule").value.value = String(found.value);
  };
  by("rule").rule.addEventListener("change", parameters);
  by("rule").parameter.addEventListener("change", value);
  by("move").addEventListener("submit", (event) => {
    event.preventDefault();
    send("/edit", { edit: "move", date: by("move").date.value, to: by("move").to.value });
  });
  by("close").addEventListener("submit", (event) => {
    event.preventDefault();
    const week = state.weeks[Number(by("close").week.value) - 1];
    const edit = event.submitter && event.submitter.value === "open" ? "open" : "close";
    send("/edit", { edit, first: week.monday, last: shifted(week.monday, 6) });
  });
  by("rule").addEventListener("submit", (event) => {
    event.preventDefault();
    const typed = by("rule").value.value.trim();
    const value = typed === "true" ? true : typed === "false" ? false : typed !== "" && !Number.isNaN(Number(typed)) ? Number(typed) : typed;
    send("/edit", { edit: "set", rule: by("rule").rule.value, parameter: by("rule").parameter.value, value });
  });
  by("stop").addEventListener("click", () => send("/stop", null));
  by("save").addEventListener("click", () => send("/save", null));

  // --- lists -------------------------------------------------------------------------------

  const edits = () => {
    by("edits").replaceChildren(...state.edits.map((words, index) => {
      const back = make("button", { type: "button", "aria-label": `Take back: ${words}` }, "Take back");
      back.addEventListener("click", () => send("/take-back", index));
      return make("li", {}, make("bdi", {}, words), back);
    }));
    by("no-edits").hidden = state.edits.length > 0;
    by("files").textContent = `Save writes ${state.files.join(" and ")}. Nothing is written before.`;
  };
  const difference = () => {
    const number = (value) => (value === null ? "none" : value.toFixed(1));
    by("peaks").querySelector("tbody").replaceChildren(...state.peaks.map((peak) => make("tr", {},
      make("th", { scope: "row" }, `${peak.sign} `, make("bdi", {}, peak.name)),
      make("td", {}, peak.date),
      make("td", { class: "n" }, number(peak.was)),
      make("td", { class: "n" }, number(peak.now)))));
    by("peaks").hidden = !state.peaks.length;
    by("weeks-title").hidden = !state.changes.length;
    by("changes").replaceChildren(...state.changes.map((words) => make("li", {}, words)));
    const nothing = state.edits.length ? "There is no plan for these changes yet." : "The season is as on file.";
    const same = "The plan is the same in every week.";
    by("no-difference").textContent = state.stale ? nothing : state.edits.length ? same : nothing;
    by("no-difference").hidden = state.changes.length > 0;
  };

  ask("/state").then(show, (error) => tell(error.message));
})();
