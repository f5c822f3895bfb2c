// The run editor without whole page loads: presses and picks go to the server as they do without a script, and
// only the editor is put anew. Arrow keys walk the list, [ and ] move the chosen item.
const main = document.getElementById("main");
const said = () => document.getElementById("said");
let busy = null;

const editor = () => document.getElementById("editor");

async function go(address, form, focus) {
  if (busy) busy.abort();
  busy = new AbortController();
  const pressed = document.activeElement;
  const slow = setTimeout(() => pressed && pressed.setAttribute("aria-busy", "true"), 400);
  let answer;
  let text;
  try {
    answer = await fetch(address, form ? { method: "POST", body: form, signal: busy.signal } : { signal: busy.signal });
    text = await answer.text();
  } catch (gone) {
    if (gone.name !== "AbortError") location.href = form ? location.href : address;
    return;
  } finally {
    clearTimeout(slow);
  }
  const page = new DOMParser().parseFromString(text, "text/html");
  if (!page.getElementById("editor")) {
    show(page, answer.url);
    return;
  }
  const strip = document.querySelector(".drawing");
  const scrolled = strip ? strip.scrollLeft : 0;
  editor().replaceWith(page.getElementById("editor"));
  takeFrame(page);
  const now = document.querySelector(".drawing");
  if (now) now.scrollLeft = scrolled;
  if (answer.ok) history.replaceState(null, "", plain(answer.url));
  said().textContent = words();
  find(focus);
  inSight();
}

// The question about an older page, or a refusal: it is a page of its own, shown as the server gave it.
function show(page, address) {
  main.replaceChildren(...page.getElementById("main").childNodes);
  takeFrame(page);
  history.pushState(null, "", plain(address));
  main.focus();
}

function takeFrame(page) {
  document.body.dataset.revision = page.body.dataset.revision || document.body.dataset.revision;
  document.body.dataset.n = page.body.dataset.n || document.body.dataset.n;
  const top = page.querySelector(".top");
  if (top) {
    const kept = document.getElementById("kept");
    const state = kept ? kept.textContent : "";
    const focused = document.activeElement && document.activeElement.id === "undo";
    document.querySelector(".top").replaceWith(top);
    if (kept) document.getElementById("kept").textContent = state;
    if (focused) document.getElementById("undo")?.focus();
  }
  const told = document.getElementById("told");
  if (told) told.remove();
}

function plain(address) {
  const url = new URL(address);
  return url.pathname + url.search;
}

function words() {
  const wrong = document.getElementById("wrong");
  if (wrong) return wrong.textContent;
  const line = document.querySelector(".items .chosen");
  const states = document.getElementById("states").textContent.replace(/\s+/g, " ").trim();
  return line ? `${line.textContent.replace(/\s+/g, " ").trim()}. ${states}` : states;
}

function find(focus) {
  const wrong = document.querySelector("[aria-describedby=wrong]");
  const wanted = wrong || (focus && document.getElementById(focus)) || document.querySelector(".items .chosen .pick");
  if (!wanted) return;
  if (wanted.disabled) document.getElementById("chosen").focus();
  else wanted.focus({ preventScroll: true });
}

function inSight() {
  const line = document.querySelector(".items .chosen");
  if (line) line.scrollIntoView({ block: "nearest" });
  const frame = document.querySelector(".drawing");
  const tap = frame && frame.querySelector(".tap.chosen rect");
  if (!tap) return;
  const here = tap.getBoundingClientRect();
  const room = frame.getBoundingClientRect();
  if (here.left < room.left) frame.scrollLeft -= room.left - here.left + 20;
  else if (here.right > room.right) frame.scrollLeft += here.right - room.right + 20;
}

main.addEventListener("click", (event) => {
  const link = event.target.closest("#editor a[href]");
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || !editor()) return;
  const address = link.href instanceof SVGAnimatedString ? link.href.baseVal : link.getAttribute("href");
  if (!address.split("?")[0].endsWith(editor().dataset.here)) return;
  event.preventDefault();
  go(address, null, link.classList.contains("pick") || link.classList.contains("tap") ? null : "chosen");
});

main.addEventListener("submit", (event) => {
  const form = event.target;
  if (event.defaultPrevented || !form.closest("#editor")) return;
  event.preventDefault();
  event.stopPropagation();
  const button = event.submitter;
  const sent = new URLSearchParams(new FormData(form, button));
  go((button && button.getAttribute("formaction")) || form.action, sent, button && button.id);
});

main.addEventListener("input", (event) => {
  const picks = event.target.dataset && event.target.dataset.picks;
  const radio = picks && event.target.form.querySelector(`[name=where][value=${picks}]`);
  if (radio) radio.checked = true;
});

document.addEventListener("keydown", (event) => {
  if (!editor() || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.target.closest("input, select, textarea")) return;
  if (event.key === "[" || event.key === "]") {
    const button = document.getElementById(event.key === "[" ? "move-left" : "move-right");
    if (!button || button.disabled) return;
    event.preventDefault();
    const sent = new URLSearchParams(new FormData(button.form, button));
    go(button.form.action, sent, null);
  } else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
    const lines = [...document.querySelectorAll(".items .pick")];
    if (!lines.length) return;
    const here = lines.findIndex((line) => line.parentElement.classList.contains("chosen"));
    const next = lines[here + (event.key === "ArrowDown" ? 1 : -1)] || (here < 0 ? lines[0] : null);
    if (!next) return;
    event.preventDefault();
    go(next.getAttribute("href"), null, null);
  }
});

inSight();
