// Setting a box: one step a screen by the address's last part. Each answer is kept on the phone first and sent
// when it can be; without signal the steps go on, and the page says what the next numbers do not know yet.
import { drained, keep } from "./queue.js";
import { parse, show } from "./tape.js";
import { Pad } from "./keypad.js";

const steps = document.querySelector(".steps");
if (steps) start();

function start() {
  const words = steps.dataset;
  const places = JSON.parse(words.places);
  const record = `/record/set/${words.number}/`;
  const memory = `set ${document.body.dataset.job} ${words.number}`;
  const home = document.getElementById("pad-home");
  const aloud = document.getElementById("aloud");
  let form = null; // the form that the keys write to
  let moved = 0; // how far the right edge came off the plan

  stayAwake();
  document.addEventListener("visibilitychange", () => document.hidden || stayAwake());
  if ("speechSynthesis" in window) {
    aloud.hidden = false;
    aloud.addEventListener("click", sayStep);
  }

  const pad = home && new Pad(home.querySelector(".pad"), {
    next: (text) => text && typed(form, text),
    undo: () => (document.getElementById("undo") || steps.querySelector(".step:target .ahead a")).click(),
    skip: () => answer(form, "not-read", ""),
    type: () => (form.classList.toggle("typed"), form.querySelector("input[name=text]").focus()),
    change: () => told(pad.text),
  });

  if (pad) {
    pad.root.dataset.carried = words.carried;
    pad.root.querySelector("[data-key=skip] span").textContent = words.notRead;
  }
  for (const each of steps.querySelectorAll("form.three")) each.addEventListener("submit", pressed);
  for (const each of steps.querySelectorAll("form.typed-answer")) {
    each.addEventListener("submit", pressed);
    each.querySelector("input[name=text]").addEventListener("input", (event) => told(event.target.value));
  }
  steps.querySelector("a.later")?.addEventListener("click", later);
  const begins = steps.querySelector("form.begin");
  begins?.addEventListener("submit", begin);
  steps.querySelector("form.checks")?.addEventListener("submit", look);
  addEventListener("hashchange", turn);
  if (!location.hash && steps.querySelector(".step.show")?.id === "fetch") {
    const last = read(memory);
    if (last && document.querySelector(last)) location.replace(last);
  }
  turn();

  function current() {
    return (location.hash && document.getElementById(location.hash.slice(1))) || steps.querySelector(".step.show");
  }

  // Shows a step: from its top, with the keys where a number is typed.
  function turn() {
    const step = current();
    if (!step?.closest(".steps")) return;
    form = step.querySelector("form.typed-answer");
    if (pad) {
      pad.root.hidden = !form;
      document.documentElement.classList.toggle("keys", Boolean(form));
      (form ? form.querySelector(".pad-place") : home).append(pad.root);
    }
    if (location.hash) {
      write(memory, location.hash);
      scrollTo(0, 0);
      step.focus({ preventScroll: true });
    }
    if (!pad || !form) return;
    const whole = form.dataset.planned.split(" ")[0];
    const kept = /^\d+$/.test(whole) && pad.tape.units === "inch" ? whole : "";
    pad.open({ kept, face: kept ? "fraction" : "whole" });
    told("");
  }

  // How far off the plan a number is, before it is kept.
  function told(text) {
    const asking = form.querySelector(".asking");
    asking.hidden = true;
    const ticks = text ? parse(text, pad.tape) : null;
    const plan = Number(form.dataset.ticks);
    const line = form.querySelector(".beside-plan");
    if (ticks === null || form.dataset.ticks === "") {
      line.textContent = "";
      return;
    }
    const off = ticks - plan;
    const by = show(Math.abs(off), pad.tape.units);
    const said = off === 0 ? words.same : (off > 0 ? words.more : words.less).replace("{by}", by);
    line.textContent = `${show(ticks, pad.tape.units)}: ${said}`;
  }

  function pressed(event) {
    const { name, value } = event.submitter || {};
    const sent = event.target;
    if (sent.matches(".three")) {
      event.preventDefault();
      answer(sent, value, "");
    } else {
      const field = sent.querySelector("input[name=text]").value || (name === "text" ? value : pad.text);
      if (parse(name === "text" ? value : field, pad.tape) === null) return; // the server says what it could be
      event.preventDefault();
      typed(sent, name === "text" ? value : field, name === "sure");
    }
  }

  // A number that is far off is asked about once.
  function typed(sent, text, isSure = false) {
    const ticks = parse(text, pad.tape);
    const field = sent.querySelector("input[name=text]");
    if (ticks === null) {
      field.value = text;
      HTMLFormElement.prototype.submit.call(sent);
      return;
    }
    const off = sent.dataset.ticks === "" ? 0 : ticks - Number(sent.dataset.ticks);
    if (Math.abs(off) > Number(sent.dataset.asks) && !isSure) {
      const asking = sent.querySelector(".asking");
      const { units } = pad.tape;
      field.value = text;
      asking.querySelector("p").textContent = sent.dataset.far
        .replace("{given}", show(ticks, units))
        .replace("{by}", show(Math.abs(off), units));
      asking.querySelector(".answers").replaceChildren(asking.querySelector(".sure"));
      asking.querySelector(".sure").hidden = false;
      asking.hidden = false;
      return;
    }
    if (sent.dataset.key === "right") moved = off;
    answer(sent, "typed", text);
  }

  async function answer(sent, which, text) {
    const screwed = sent.querySelector("[name=screwed]").value === "yes";
    const parts = [...part(`${record}screwed`, screwed), ...part(`/walk/set/${words.number}`, "begun")];
    const { key, planned } = sent.dataset;
    const value = which === "mark" ? planned : text;
    const fields = { "top-left": "below_line_left", "top-right": "below_line_right", "off-wall": "off_wall" };
    if (fields[key]) {
      parts.push(...part(record + fields[key], which === "not-read" ? null : value));
    } else {
      const known = places[`${record}edges`].value || [];
      const read = { edge: key, of: sent.dataset.of || "frame", at: value, how: which === "mark" ? "on the mark" : "read" };
      const others = known.filter((each) => each.edge !== key);
      const edges = which === "not-read" ? others : [...others, read];
      edges.sort((a, b) => (a.edge < b.edge ? -1 : 1));
      parts.push(...part(`${record}edges`, edges.length ? edges : null));
      const agree = which === "not-read" && JSON.parse(sent.dataset.agree || "null");
      if (agree) parts.push({ place: agree[0], value: agree[1], over: [] });
    }
    await keepParts(parts);
    const next = sent.dataset.next;
    if (next !== "on") location.hash = next;
    else if (await drained()) location.assign(`${words.home}/done`);
    else keptHere();
  }

  // A value for a place, over what stands there; nothing where it says so already.
  function part(place, value) {
    const known = places[place];
    if (JSON.stringify(known.value) === JSON.stringify(value)) return [];
    return [{ place, value, over: known.over, before: known.value }];
  }

  async function keepParts(parts) {
    if (!parts.length) return;
    const made = await keep(parts, { set: words.number });
    made.forEach((entry) => {
      if (places[entry.place]) places[entry.place] = { over: [entry.id], value: entry.value };
    });
  }

  function keptHere() {
    const step = document.getElementById("kept-here");
    step.querySelector(".kept-words").textContent = words.kept;
    step.querySelector(".shift-words").textContent = moved
      ? words.shift
          .replace("{by}", show(Math.abs(moved), pad.tape.units))
          .replace("{way}", moved > 0 ? words.right : words.left)
      : "";
    location.hash = "kept-here";
  }

  async function begin(event) {
    const width = begins.querySelector("[name=width]")?.value.trim() || "";
    if (width && parse(width, pad.tape) === null) return; // the server says what it could be
    event.preventDefault();
    const here = begins.querySelector("[name=here]");
    const box = `/order/boxes/${words.number}/`;
    await keepParts([
      ...part(`/walk/set/${words.number}`, "begun"),
      ...(width ? part(`${box}measured`, width) : []),
      ...(here?.checked ? part(`${box}delivery`, "here") : []),
    ]);
    location.hash = "prepare";
  }

  // It is set before its screws are in.
  function later(event) {
    event.preventDefault();
    for (const each of steps.querySelectorAll("[name=screwed]")) each.value = "no";
    location.hash = event.currentTarget.hash;
  }

  function look(event) {
    event.preventDefault();
    const failed = event.target.querySelector("input[value=no]:checked");
    location.hash = failed ? `no-${failed.name}` : "screw";
  }

  function sayStep() {
    const step = current();
    speechSynthesis.cancel();
    speechSynthesis.speak(new SpeechSynthesisUtterance(step.dataset.say || step.innerText));
  }
}

async function stayAwake() {
  const note = document.getElementById("may-sleep");
  try {
    await navigator.wakeLock.request("screen");
    note.hidden = true;
  } catch {
    note.hidden = false;
  }
}

function read(name) {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
}

function write(name, value) {
  try {
    localStorage.setItem(name, value);
  } catch {
    // a phone that keeps nothing starts at the first step again
  }
}
