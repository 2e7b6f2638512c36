// The switch of units and the ticks.  Without this script the page shows both units, and ticks are not remembered.
(() => {
  "use strict";
  const root = document.documentElement;
  const bar = document.getElementById("bar");
  const boxes = [...document.querySelectorAll(".tick input")];
  const done = document.getElementById("done");
  const ticks = `stitchlang ticks ${root.dataset.sheet}`;
  const units = "stitchlang units";

  // A browser may refuse to keep anything, for pages read from a disk among others.
  const recall = (key) => { try { return localStorage.getItem(key); } catch { return null; } };
  const keep = (key, value) => { try { localStorage.setItem(key, value); } catch { /* not remembered */ } };

  const show = (choice) => {
    root.dataset.units = choice;
    bar.querySelector(`input[value="${choice}"]`).checked = true;
  };
  const count = () => {
    done.textContent = `${boxes.filter((box) => box.checked).length} of ${boxes.length} steps done`;
  };
  const remember = () => {
    keep(ticks, boxes.filter((box) => box.checked).map((box) => box.id).join(" "));
    count();
  };

  const ticked = new Set((recall(ticks) || "").split(" "));
  for (const box of boxes) {
    box.checked = ticked.has(box.id);
    box.addEventListener("change", remember);
  }
  for (const choice of bar.querySelectorAll("input")) {
    choice.addEventListener("change", () => { show(choice.value); keep(units, choice.value); });
  }
  document.getElementById("clear").addEventListener("click", () => {
    for (const box of boxes) box.checked = false;
    remember();
  });

  const wanted = recall(units);
  bar.hidden = false;
  show(["0", "1", "both"].includes(wanted) ? wanted : root.dataset.first);
  count();
})();
