// The tape keys as plain data: what each press does to a number, and the text that the number is kept as. A
// table of cases presses them without a page.
export const SIXTEENTHS = ["even", ...Array.from({ length: 15 }, (_, n) => reduced(n + 1, 16))];

function reduced(over, under) {
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${over}/${under}`;
}

export function fresh(units, kept = "", held = "0", body = "") {
  return { units, kept, held, body, feet: "", whole: "", open: true, fraction: "", plus: false, strength: "", half: false, raw: "" };
}

// Gives the state after a key.
export function press(state, key) {
  const s = { ...state };
  if (/^\d$/.test(key)) {
    s.whole = (s.open ? s.whole + key : key).slice(0, 4);
    s.open = true;
  } else if (key === "even" || key.includes("/16") || /^\d\/[248]$/.test(key)) {
    s.fraction = key;
    s.open = false;
  } else if (key === "plus") {
    s.plus = !s.plus;
    s.strength = "";
  } else if (key === "strong" || key === "shy") {
    s.strength = s.strength === key ? "" : key;
    s.plus = false;
  } else if (key === "feet") {
    if (s.feet && !s.whole) [s.whole, s.feet] = [s.feet, ""];
    else if (s.whole && !s.feet) [s.feet, s.whole, s.open] = [s.whole, "", true];
  } else if (key === "half") {
    s.half = !s.half;
  } else if (key === "held") {
    const turns = ["0", s.units === "metric" ? "10" : "1", s.units === "metric" ? "100" : "10", ...(s.body ? ["body"] : [])];
    s.held = turns[(turns.indexOf(s.held) + 1) % turns.length];
  } else if (key === "clear") {
    return fresh(s.units, isTouched(s) ? s.kept : "", s.held, s.body);
  } else if (key === "back") {
    if (s.strength || s.plus) [s.strength, s.plus] = ["", false];
    else if (s.half) s.half = false;
    else if (s.fraction) [s.fraction, s.open] = ["", true];
    else if (s.whole) s.whole = s.whole.slice(0, -1);
    else [s.whole, s.feet] = [s.feet, ""];
  }
  return s;
}

export function isTouched(s) {
  return Boolean(s.feet || s.whole || s.fraction || s.plus || s.strength || s.half || s.raw);
}

// The number as the tape showed it, or an empty text while it is not whole yet.
export function shownText(s) {
  if (s.raw) return s.kept && /^\d{1,2}\/\d{1,2}/.test(s.raw) ? `${s.kept} ${s.raw}` : s.raw;
  if (s.units === "metric") return metricText(s);
  const sixteenths = SIXTEENTHS.indexOf(s.fraction);
  const part = s.plus ? reduced(Math.max(sixteenths, 0) * 2 + 1, 32) : sixteenths > 0 ? s.fraction : "";
  const stands = s.whole || s.feet || (s.fraction || s.plus ? s.kept : "");
  if (!stands && !part && s.fraction !== "even") return "";
  if (!s.whole && !s.feet && !s.fraction && !s.plus) return "";
  const whole = s.whole || (s.feet ? "" : s.kept);
  const inches = [String(Number(whole)) === "0" && part ? "" : whole && String(Number(whole)), part].filter(Boolean).join(" ");
  const text = s.feet ? `${s.feet}'${inches ? ` ${inches}` : ""}` : inches || "0";
  return s.strength ? `${text} ${s.strength}` : text;
}

function metricText(s) {
  const joined = s.kept && s.whole.length <= 2 ? s.kept + s.whole : s.whole;
  const isWhole = s.kept && s.whole.length <= 2 ? s.whole.length === 2 : s.whole.length > 0;
  return isWhole ? String(Number(joined)) + (s.half ? ".5" : "") : "";
}

// The text that is kept: with it how the tape was held.
export function textOf(s) {
  const text = shownText(s);
  if (!text || s.held === "0") return text;
  return s.held === "body" ? `${text} plus body ${s.body}` : `${text} held at ${s.held}`;
}

// What the readout shows: what was carried over, in its frame, and what was keyed.
export function readout(s) {
  const shown = shownText(s);
  if (s.units === "metric") {
    if (!s.kept || s.whole.length > 2 || s.raw) return { carried: "", keyed: shown || (s.whole || "__") };
    return { carried: s.kept, keyed: `${s.whole}__`.slice(0, 2) + (s.half ? ".5" : "") };
  }
  if (!s.kept || s.whole || s.feet || (s.raw && shown === s.raw)) {
    const rest = s.feet && !s.whole && !s.fraction && !s.raw ? " __" : "";
    return { carried: "", keyed: (shown || s.strength || "__") + rest };
  }
  return { carried: s.kept, keyed: shown.slice(s.kept.length + 1) || (shown ? "even" : s.strength || "__") };
}
