(() => {
  const weeks = [...document.querySelectorAll("details.week")];
  const all = document.getElementById("all");
  const open = (wide) => weeks.forEach((week) => { week.open = wide; });
  const follow = () => {
    const target = location.hash.length > 1 && document.getElementById(location.hash.slice(1));
    const week = target && target.closest("details");
    if (!week) return;
    week.open = true;
    week.querySelector("summary").focus({ preventScroll: true });
    week.scrollIntoView({ block: "start" });
  };
  all.hidden = false;
  all.addEventListener("click", () => {
    const wide = weeks.some((week) => !week.open);
    open(wide);
    all.textContent = wide ? "Close all weeks" : "Open all weeks";
  });
  addEventListener("hashchange", follow);
  let before = [];
  addEventListener("beforeprint", () => {
    before = [...document.querySelectorAll("details:not([open])")];
    before.forEach((each) => { each.open = true; });
  });
  addEventListener("afterprint", () => before.forEach((each) => { each.open = false; }));
  follow();
})();
