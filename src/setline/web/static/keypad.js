// The tape keys on the page: a thumb makes a text as the tape shows it. Palms and bounces are kept out; what
// the keys mean stands in keys.js, what a text is worth in tape.js.
import { fresh, isTouched, press, readout, shownText, textOf } from "./keys.js";
import { drawBlade, pointBlade } from "./blade.js";
import { parse, show, spoken } from "./tape.js";

const BOUNCE = 90;
const SETTLE = 150;
const SLIP = 10;
const FLASH = 120;
const ECHO = 700;

export class Pad {
  // root: the pad's element. on: {next(text), undo(), skip(), type(), body()}.
  constructor(root, on) {
    const { units, strong } = root.dataset;
    this.root = root;
    this.on = on;
    this.tape = { units, strong: Number(strong) };
    this.words = root.dataset;
    this.state = fresh(units);
    this.last = { key: "", at: 0 };
    this.down = new Map();
    this.palm = false;
    this.note = "";
    this.struck = ""; // what was taken back, crossed out until a key is pressed
    this.lifted = -ECHO;
    this.keys = [...root.querySelectorAll("[data-key]")];
    this.keys.forEach((key, n) => (key.tabIndex = n ? -1 : 0));
    root.addEventListener("pointerdown", (event) => this.touch(event));
    root.addEventListener("pointerup", (event) => this.lift(event));
    root.addEventListener("pointercancel", (event) => this.leave(event.pointerId));
    root.addEventListener("click", (event) => this.click(event));
    root.addEventListener("contextmenu", (event) => event.preventDefault());
    document.addEventListener("keydown", (event) => this.type(event));
    drawBlade(root.querySelector(".blade"), units);
    this.draw();
  }

  open({ kept = "", face = "whole", body = this.state.body, held = this.state.held } = {}) {
    this.state = fresh(this.tape.units, kept, held, body);
    this.face(face === "fraction" && kept ? "fraction" : "whole");
    this.draw();
  }

  face(name) {
    this.root.dataset.face = this.tape.units === "metric" ? "whole" : name;
  }

  get text() {
    return textOf(this.state);
  }

  touch(event) {
    if (this.down.size) this.palm = true;
    this.down.set(event.pointerId, event.target.closest("[data-key]"));
  }

  lift(event) {
    const key = this.down.get(event.pointerId);
    const palm = this.palm;
    this.leave(event.pointerId);
    this.lifted = performance.now();
    if (palm || !key) return;
    const box = key.getBoundingClientRect();
    const inside =
      event.clientX >= box.left - SLIP && event.clientX <= box.right + SLIP &&
      event.clientY >= box.top - SLIP && event.clientY <= box.bottom + SLIP;
    if (inside) this.hit(key, event.timeStamp);
  }

  leave(pointer) {
    this.down.delete(pointer);
    if (!this.down.size) this.palm = false;
  }

  // A click without a pointer comes from a keyboard, a switch or a screen reader. One that follows a pointer is
  // its echo, perhaps on what has come to stand under the finger since.
  click(event) {
    const key = event.target.closest("[data-key]");
    if (key && performance.now() - this.lifted > ECHO) this.hit(key, event.timeStamp);
  }

  // now: when the thumb did it, however late a busy phone comes to it.
  hit(element, now) {
    const key = element.dataset.key;
    const { key: before, at } = this.last;
    if (/^\d$/.test(key) && key === before && now - at < BOUNCE) return;
    if (key === "next" && now - at < SETTLE && before !== "next") return;
    this.last = { key, at: now };
    element.classList.add("hit");
    setTimeout(() => element.classList.remove("hit"), FLASH);
    navigator.vibrate?.(10);
    this.take(key);
  }

  take(key) {
    if (key === "next") return this.on.next(this.text);
    if (key === "undo" || key === "skip" || key === "type") return this.on[key]();
    if (key === "to-inches" || key === "to-fraction") return this.face(key === "to-inches" ? "whole" : "fraction");
    if (key === "held" && !this.state.body) this.on.body?.();
    this.state = press({ ...this.state, raw: "" }, key);
    this.draw();
    this.on.change?.();
  }

  // A number pad in a pocket, or a laptop's keys: the text grows as it is typed.
  type(event) {
    const within = event.target;
    if (this.root.hidden || event.altKey || event.metaKey || within.closest?.("input, select, textarea, summary, dialog")) return;
    const { key } = event;
    if (event.ctrlKey) {
      if (key !== "z") return;
      this.on.undo();
    } else if (key.startsWith("Arrow") && within.matches("[data-key]")) {
      this.walk(within, key);
    } else if (key === "Enter" && !within.closest("a, button:not([data-key]), [data-key]:not([data-key=next])")) {
      this.on.next(this.text);
    } else if (key === "Backspace") {
      if (this.state.raw) this.state.raw = this.state.raw.slice(0, -1);
      else this.state = press(this.state, "back");
    } else if (key === "+" || key === "-") {
      this.toggleRaw(key === "+" ? "strong" : "shy");
    } else if (/^[\d/'".,]$/.test(key) || (key === " " && this.state.raw && !within.matches("[data-key]"))) {
      this.state.raw += key;
    } else {
      return;
    }
    event.preventDefault();
    this.draw();
    this.on.change?.();
  }

  toggleRaw(word) {
    const { raw } = this.state;
    if (!raw) this.state = press(this.state, word);
    else this.state.raw = raw.endsWith(` ${word}`) ? raw.slice(0, -word.length - 1) : `${raw.replace(/ (strong|shy)$/, "")} ${word}`;
  }

  walk(from, arrow) {
    const here = from.getBoundingClientRect();
    const [dx, dy] = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[arrow];
    let best = null;
    for (const key of this.keys) {
      const box = key.getBoundingClientRect();
      const [x, y] = [box.left + box.width / 2 - here.left - here.width / 2, box.top + box.height / 2 - here.top - here.height / 2];
      const along = x * dx + y * dy;
      if (!box.width || key === from || along < 5) continue;
      const far = along + 3 * Math.abs(x * dy + y * dx);
      if (!best || far < best.far) best = { far, key };
    }
    if (!best) return;
    from.tabIndex = -1;
    best.key.tabIndex = 0;
    best.key.focus();
  }

  draw() {
    const s = this.state;
    const text = this.text;
    const ticks = text ? parse(text, this.tape) : null;
    const value = this.root.querySelector(".value");
    const { carried, keyed } = readout(s);
    value.textContent = carried ? ` ${keyed}` : keyed;
    value.classList.toggle("long", value.textContent.length + carried.length > 11);
    value.classList.toggle("longer", value.textContent.length + carried.length > 20);
    if (carried) value.prepend(Object.assign(document.createElement("span"), { className: "carried", textContent: carried }));
    value.setAttribute("aria-label", spoken(text || s.kept));
    const beside = this.root.querySelector(".beside");
    beside.textContent = this.beside(text, ticks);
    if (this.struck && !isTouched(s)) beside.prepend(Object.assign(document.createElement("s"), { textContent: this.struck }), " ");
    this.next(shownText(s), s);
    for (const key of this.keys) {
      const on = key.dataset.key === "plus" ? s.plus : key.dataset.key === "half" ? s.half : key.dataset.key === s.strength || (key.dataset.key === s.fraction && !s.raw);
      if (key.matches("[data-key=held]")) {
        key.querySelector("span").textContent = s.held === "0" ? this.words.held0 : s.held === "body" ? this.words.body : this.words.heldAt.replace("{held}", s.held);
        key.classList.toggle("on", s.held !== "0");
      } else if (key.hasAttribute("aria-pressed")) key.setAttribute("aria-pressed", String(on));
    }
    pointBlade(this.root.querySelector(".blade"), ticks, this.tape.units);
  }

  beside(text, ticks) {
    const s = this.state;
    if (ticks === null && !isTouched(s)) return [this.note, s.kept && this.words.carried.replace("{whole}", s.units === "metric" ? `${s.kept}00` : s.kept)].filter(Boolean).join(" ");
    if (ticks === null) return "";
    const value = show(ticks, this.tape.units);
    const words = s.held === "body" ? this.words.bodyReadout : s.held !== "0" ? this.words.heldReadout : "";
    if (words) return words.replace("{shown}", shownText(s)).replace("{held}", s.held).replace("{body}", s.body).replace("{value}", value);
    if (value === text) return "";
    return s.strength || / (strong|shy)$/.test(text) ? `= ${value}` : this.words.total.replace("{total}", value);
  }

  // What was kept just now stands large for a moment, and beside the next one until a key is pressed.
  flash(text) {
    const just = Object.assign(document.createElement("div"), { className: "just", textContent: text });
    just.setAttribute("aria-hidden", "true");
    this.root.querySelector(".readout").append(just);
    setTimeout(() => just.remove(), 600);
  }

  next(shown, s) {
    const key = this.root.querySelector("[data-key=next]");
    const even = shown && s.units === "inch" && !s.raw && (s.whole || s.feet) && !s.fraction && !s.plus && !s.strength;
    key.querySelector("span").textContent = even ? this.words.nextEven.replace("{value}", shown) : this.words.next;
    key.setAttribute("aria-disabled", String(!shown));
  }
}
