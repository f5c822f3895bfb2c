// What is asked when a reading is odd: far from its neighbours, or not as it was the first time. The same rules
// as the server's, so that they hold without it.
import { show, INCH, MM } from "./tape.js";

// Gives the sentence and the answers as [label, way, text], or null where nothing is odd.
export function question(spot, rows, text, ticks, { units, words }) {
  if (spot.firstTicks !== undefined) return repeat(spot, text, ticks, units, words);
  const near = neighbours(spot, rows);
  if (spot.expected !== undefined) near.push({ typed: show(spot.expected, units), ticks: spot.expected });
  const off = (value) => Math.abs(ticks - value);
  if (!near.length || near.some((other) => off(other.ticks) < Number(words.jump))) return null;
  const closest = near.map((other) => other.ticks).reduce((best, other) => (off(other) < off(best) ? other : best));
  const sentence = spot.expected !== undefined ? words.expected : ticks > closest ? words.farMore : words.farLess;
  const answers = [[words.again, "again", text], [words.right, "keep", text]];
  const step = units === "inch" ? INCH : 100 * MM;
  const other = ticks + Math.floor((closest - ticks) / step + 0.5) * step;
  if (other !== ticks && other >= 0 && Math.abs(other - closest) < off(closest))
    answers.push([fill(words.other, { other: show(other, units) }), "other", show(other, units)]);
  const facts = { given: show(ticks, units), apart: show(off(closest), units), near: near.map((each) => each.typed).join(", ") };
  return { sentence: fill(sentence, facts), answers };
}

function repeat(spot, text, ticks, units, words) {
  const apart = Math.abs(ticks - spot.firstTicks);
  if (apart <= (units === "inch" ? INCH / 32 : MM / 2)) return null;
  const finest = units === "inch" ? INCH / 64 : MM / 10;
  const middle = Math.floor(Math.floor((spot.firstTicks + ticks) / 2) / finest + 0.5) * finest;
  return {
    sentence: fill(words.repeat, { first: spot.first, now: text, apart: show(apart, units) }),
    answers: [
      [fill(words.middle, { middle: show(middle, units) }), "both", text],
      [fill(words.first, { first: spot.first }), "first", text],
      [fill(words.this, { now: text }), "keep", text],
    ],
  };
}

// The spots read next to one on its own line, at most one on either side.
export function neighbours(spot, rows) {
  const read = rows.filter((row) => row.line === spot.line && row.key !== spot.key && row.ticks !== undefined);
  const before = read.filter((row) => row.along <= spot.along).sort((a, b) => b.along - a.along);
  const after = read.filter((row) => row.along > spot.along).sort((a, b) => a.along - b.along);
  return [...before.slice(0, 1), ...after.slice(0, 1)];
}

// A sentence with its facts filled in.
export function fill(words, facts) {
  return words.replace(/\{(\w+)\}/g, (whole, name) => facts[name] ?? whole);
}
