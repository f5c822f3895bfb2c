// Marks ticked as they are struck: each tick is kept on the phone at once and sent when it can be.
import { drained, keep } from "./queue.js";

const sheet = document.querySelector("form.sheet");
if (sheet && document.querySelector("form.strike-one")) start();

function start() {
  sheet.querySelector(".keep-sheet").hidden = true; // a tick is kept as it is made
  for (const box of sheet.querySelectorAll("input[type=checkbox]")) {
    box.addEventListener("change", () => tick(box));
  }
  for (const form of document.querySelectorAll("form.strike-one")) {
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const box = boxOf(form.closest(".card"));
      box.checked = true;
      strike(box, form.closest(".card"));
    });
  }
  addEventListener("hashchange", turn);
  turn();
}

// On to the next mark that is not on the wall; after the last, the whole sheet as it is by now.
async function strike(box, card) {
  const kept = tick(box);
  const next = [...document.querySelectorAll(".card")].find(
    (each) => card.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_FOLLOWING && !boxOf(each)?.checked,
  );
  location.hash = next ? next.id : "main";
  await kept;
  if (!next && (await drained())) location.replace(location.pathname);
}

function boxOf(card) {
  const name = card.querySelector("[name=mark]").value;
  return [...sheet.querySelectorAll("input[type=checkbox]")].find((each) => each.value === name);
}

function turn() {
  const card = document.getElementById(location.hash.slice(1));
  if (!card?.matches(".card")) return;
  scrollTo(0, 0);
  card.focus({ preventScroll: true });
}

async function tick(box) {
  const { place, number, over, was } = box.dataset;
  const value = box.checked ? number : null;
  if ((was || null) === value) return;
  box.dataset.was = value || "";
  const made = await keep([{ place, value, over: over.split(" ").filter(Boolean), before: was || null }]);
  box.dataset.over = made[0].id;
  const row = box.closest("li");
  row.className = box.checked ? "mark-struck" : "mark-open";
  row.querySelector(".strike-out")?.remove();
  const card = [...document.querySelectorAll(".card")].find((each) => boxOf(each) === box);
  if (card) card.querySelector(".recorded").hidden = !box.checked;
}
