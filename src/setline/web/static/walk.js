// The walk on a phone: the page's spots are gone through without the server, each reading kept on the phone at
// once. What is odd is asked before it is kept, by the same rules that the server has.
import { canUndo, drained, keep, probe, undo, unknownActs } from "./queue.js";
import { carried, parse, spoken } from "./tape.js";
import { Pad } from "./keypad.js";
import { fill, question } from "./questions.js";
import { isOpen, lastOfFamily, mark, readRows, strip, takeOver } from "./rows.js";
import { openSettings } from "./settings.js";

const form = document.querySelector("form.reading");
const wide = matchMedia("(min-width: 1000px)");
const one = (name) => document.getElementById(name);

function start() {
  const words = form.dataset;
  const asking = one("asking");
  const field = one("text");
  const skips = one("skips");
  const rows = readRows();
  let spot = { ...rows.find((row) => row.key === JSON.parse(words.spot).key), ...JSON.parse(words.spot) };
  const others = JSON.parse(words.others);
  let left = Number(one("left").textContent.match(/\d+/)) || 0;
  let readTime = Date.now();
  let opened = 0;
  const settings = openSettings();
  const pad = new Pad(form.querySelector(".pad"), {
    next: (text) => answer(text),
    undo: takeBack,
    skip: () => (skips.classList.toggle("open"), (opened = performance.now())),
    type: () => typing(true),
    change: () => (asking.hidden = true),
  });
  const { units } = pad.tape;
  document.documentElement.classList.add("keys");
  form.querySelector(".pad-back").hidden = false;
  form.querySelector(".pad-back").addEventListener("click", () => typing(false));
  field.addEventListener("input", () => {
    asking.hidden = true;
    pad.state.raw = field.value.trim();
    pad.draw();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (event.submitter?.name === "skip" && performance.now() - opened < 300) return; // the press that opened it
    const { name, value } = event.submitter || {};
    if (name === "skip") skip(value);
    else if (name === "choice") accept(value, "");
    else if (name === "answer") decide(value);
    else answer(field.value);
  });
  for (const row of rows) {
    const input = row.element.querySelector("input");
    input.addEventListener("keydown", (event) => {
      if (event.key !== "Enter") return;
      event.preventDefault();
      if (row.key !== spot.key) go(row);
      answer(input.value, input);
    });
  }
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden && Date.now() - readTime > 1800000) probe().then(() => location.reload());
  });
  if (!asking.hidden) typing(true);
  else if (spot.first || new URLSearchParams(location.search).has("at")) go(spot);
  else catchUp();

  // What this phone has kept since the page was made: the page may have come from the phone's own store.
  async function catchUp() {
    takeOver(rows, await unknownActs(), pad.tape);
    const here = rows.find((row) => row.key === spot.key);
    go(!here || isOpen(here) ? spot : rows.find(isOpen) || spot);
  }

  function typing(on) {
    form.classList.toggle("typed", on);
    if (on) field.focus();
    else {
      field.value = "";
      pad.state.raw = "";
      pad.draw();
    }
  }

  // Turns to a spot: prompt, strip, keys on the face that is needed.
  function go(next) {
    const before = spot;
    spot = next;
    readTime = Date.now();
    one("stand").textContent = settings("helper") ? spot.say : spot.stand;
    one("from").textContent = spot.read;
    form.querySelector(".hold").textContent = spot.hold;
    skips.classList.remove("open");
    asking.hidden = true;
    field.value = "";
    for (const row of rows) row.element.classList.toggle("now", row.key === spot.key);
    if (wide.matches) spot.element?.querySelector("input").focus();
    const last = lastOfFamily(rows, spot);
    const whole = last ? carried(last.ticks, units) : "";
    const isLike = whole && ["floor", "plumb", "ceiling"].includes(spot.group);
    pad.open({
      kept: isLike ? whole : "",
      face: isLike ? "fraction" : "whole",
      held: before && before.group === spot.group ? pad.state.held : "0",
      body: settings("tape-body") || "",
    });
    strip(form.querySelector(".strip"), rows, spot);
  }

  // What was typed or keyed: a plain form is read here, all else by the server.
  async function answer(text, input) {
    const typed = text.trim();
    if (!typed) return ask(words.nothing, []);
    const last = lastOfFamily(rows, spot);
    const fraction = pad.state.raw || input || form.classList.contains("typed");
    if (fraction && units === "inch" && last && /^\d{1,2}\/\d{1,2}( ?(\+|-|strong|shy))?$/.test(typed)) {
      const kept = carried(last.ticks, units);
      const means = session("fraction");
      if (kept && means !== "alone" && means !== "kept") return askFraction(typed, kept);
      if (kept && means === "kept") return accept(`${kept} ${typed}`, "", input);
    }
    return accept(typed, "", input);
  }

  async function accept(text, way, input) {
    let ticks = parse(text, pad.tape);
    if (ticks === null) {
      const told = await echo(text);
      if (!told) return ask(words.needsServer, []);
      if (told.skip) return skip(told.skip);
      if (told.ticks === null) {
        const choices = told.choices.map((choice) => [choice.label, () => accept(choice.text, "")]);
        return ask(told.sentence, [...choices, [words.typeAgain, () => typing(true)]]);
      }
      [text, ticks] = [told.text, told.ticks];
    }
    const odd = way ? null : question(spot, [...rows, ...others], text, ticks, { units, words });
    if (odd) return ask(odd.sentence, odd.answers.map(([label, how, other]) => [label, () => (how === "again" ? readAgain() : accept(other, how))]));
    return store(text, ticks, way, input);
  }

  function readAgain() {
    typing(false);
    pad.open({ kept: pad.state.kept, face: pad.root.dataset.face });
    asking.hidden = true;
  }

  async function echo(text) {
    try {
      const asked = new URLSearchParams({ key: spot.key, text, again: spot.first ? "yes" : "" });
      const answer = await fetch(`${words.walk}/echo?${asked}`, { headers: { accept: "application/json" } });
      return answer.ok ? await answer.json() : null;
    } catch {
      return null;
    }
  }

  function askFraction(typed, kept) {
    const choose = (means, text) => () => (session("fraction", means), accept(text, ""));
    ask(fill(words.fraction, { given: typed, kept }), [
      [`${kept} ${typed}`, choose("kept", `${kept} ${typed}`)],
      [typed, choose("alone", typed)],
    ]);
  }

  // A question takes the place of NEXT until it is answered.
  function ask(sentence, answers) {
    const made = document.createElement("p");
    made.textContent = sentence;
    const list = document.createElement("div");
    list.className = "answers";
    for (const [label, act] of answers) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: label });
      // not before it has been seen: the click of the press that asked may fall on it
      button.addEventListener("click", () => performance.now() - shown > 300 && act());
      list.append(button);
    }
    const shown = performance.now();
    asking.replaceChildren(made, list);
    asking.hidden = false;
  }

  function decide(value) {
    const way = value.slice(0, value.indexOf(":"));
    return way === "again" ? typing(true) : accept(value.slice(way.length + 1), way);
  }

  async function store(text, ticks, way, input) {
    const value = spot.height ? { [spot.height[0]]: text, from: spot.height[1] } : text;
    const here = { place: spot.place, value, over: spot.over, before: spot.value };
    const parts = (spot.also || []).map(([place, other]) => ({ place, value: other }));
    if (spot.skipped && spot.skipOver) parts.push({ place: spot.skip, value: null, over: spot.skipOver, before: spot.skipped });
    if (way === "keep" && spot.firstPlace)
      parts.unshift({ place: spot.firstPlace, value, over: spot.firstOver, before: spot.firstValue });
    else if (way === "first") parts.unshift({ ...here, before: null }, { place: spot.place, value: null, over: ["first"] });
    else parts.unshift(here);
    const about = { key: spot.key, typed: text, skipped: spot.skipped || "" };
    const entries = await keep(parts, about);
    const row = rows.find((each) => each.key === spot.key) || spot;
    if (way !== "first") Object.assign(row, { state: "read", typed: text, ticks, value, over: [entries[0].id], skipped: "" });
    mark(row);
    onwards(row, text, input);
  }

  async function skip(why) {
    const row = rows.find((each) => each.key === spot.key) || spot;
    const entries = await keep([{ place: spot.skip, value: why, over: spot.skipOver, before: spot.skipValue }], { key: spot.key, typed: why });
    Object.assign(row, { state: "skipped", skipped: why, skipOver: [entries[0].id], skipValue: why });
    mark(row);
    onwards(row, why, null, fill(words.skipped, { spot: row.words, why }));
  }

  function onwards(from, text, input, said) {
    const here = rows.indexOf(from);
    const next = rows.slice(here + 1).find(isOpen) || rows.find(isOpen) || rows.find((row) => row.skipped === "later" && row !== from);
    left = Math.max(0, left - 1);
    one("left").textContent = fill(words.left, { count: left });
    if (!next || from.first) return leave(text);
    pad.struck = "";
    pad.note = said || fill(words.keptShort, { spot: from.words, value: text });
    go(next);
    tell(text, fill(said ? `${said} ${words.then}` : words.keptNext, { value: text, prompt: next.stand }));
    if (input) next.element.querySelector("input").focus();
    else if (form.classList.contains("typed")) field.focus();
  }

  // The last of the group: what comes next is the server's to say.
  async function leave(text) {
    tell(text, text);
    const onwards = () => location.assign(`${words.walk}?same=yes`);
    if (await drained()) return onwards();
    ask(words.offline, []);
    document.addEventListener("entries-sent", onwards, { once: true });
  }

  function tell(seen, said) {
    const line = one("said");
    line.hidden = false;
    line.textContent = spoken(said);
    pad.flash(seen);
    if (settings("read-back") && "speechSynthesis" in window) speechSynthesis.speak(new SpeechSynthesisUtterance(spoken(seen)));
  }

  async function takeBack() {
    if (!(await canUndo())) return one("undo")?.click();
    const act = await undo();
    const row = rows.find((each) => each.key === act.about.key);
    if (!row) return location.assign(`${words.walk}?at=${encodeURIComponent(act.about.key)}`);
    left += 1;
    one("left").textContent = fill(words.left, { count: left });
    const before = act.parts[0].before ?? undefined;
    Object.assign(row, { value: before, state: before ? "read" : "open", skipped: act.about.skipped || "", over: act.undone, typed: before ? String(before.up || before.down || before) : "" });
    row.ticks = before ? parse(row.typed, pad.tape) ?? undefined : undefined;
    mark(row);
    pad.struck = act.about.typed;
    pad.note = "";
    go(row);
    one("said").textContent = spoken(fill(words.took, { spot: row.words, value: act.about.typed }));
  }
}

function session(name, value) {
  try {
    if (value !== undefined) sessionStorage.setItem(name, value);
    return sessionStorage.getItem(name);
  } catch {
    return null;
  }
}

if (form) start();
