// The rows of a group: its spots as the walk knows them, in the table and on the strip of their line.
import { parse } from "./tape.js";

export function readRows() {
  const rows = [...document.querySelectorAll("tr[data-spot]")];
  return rows.map((element) => ({ element, ...JSON.parse(element.dataset.spot) }));
}

export function isOpen(row) {
  return (row.state || "open") === "open";
}

// The reading of the same family just before a spot, else the last one read.
export function lastOfFamily(rows, spot) {
  let before = null;
  for (const row of rows) {
    if (row.key === spot.key && before) return before;
    if (row.family === spot.family && row.ticks !== undefined && row.key !== spot.key) before = row;
  }
  return before;
}

// What a row's state is, to be seen in the table.
export function mark(row) {
  if (!row.element) return;
  row.element.className = row.state;
  row.element.querySelector("input").value = row.state === "read" ? row.typed : "";
  row.element.querySelector(".why-skipped").textContent = row.state === "skipped" ? row.skipped : "";
}

// Takes what acts of this phone have kept into rows of a page that was made before.
export function takeOver(rows, acts, tape) {
  for (const { about, parts, ids } of acts) {
    const row = rows.find((each) => each.key === about.key);
    if (!row) continue;
    const { place, value } = parts[0];
    const skipped = { state: "skipped", skipped: value, skipOver: [ids[0]], skipValue: value };
    const ticks = parse(about.typed, tape) ?? undefined;
    const read = { state: "read", value, over: [ids[0]], typed: about.typed, ticks };
    mark(Object.assign(row, place === row.skip ? skipped : read));
  }
}

// Spots before and after on the same line: read ones filled, with the values beside the one that is asked.
export function strip(list, rows, spot) {
  const line = rows.filter((row) => row.line === spot.line).sort((a, b) => a.along - b.along);
  const here = line.findIndex((row) => row.key === spot.key);
  const shown = line.length < 2 ? [] : line.slice(Math.max(0, here - 3), here + 4);
  list.replaceChildren(...shown.map((row) => {
    const made = Object.assign(document.createElement("li"), { className: row.state || "open" });
    const now = row.key === spot.key;
    const beside = Math.abs(line.indexOf(row) - here) < 2 && row.state === "read";
    made.append(document.createElement(now ? "b" : "i"), beside && !now ? row.typed : "");
    if (now) made.firstChild.textContent = spot.short || "·";
    return made;
  }));
}
