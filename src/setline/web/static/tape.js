// Lengths on the phone: the plain forms that the keys make, and how a length is shown and said. It is the echo
// only: what counts is read by the server, and a table of cases holds the two to the same answers. Whatever
// is not one of these plain forms is left to the server.
export const INCH = 65024;
export const MM = 2560;
const GREATEST = 100000 * MM;
const ASKS_OVER = 480;
const FINEST = { inch: INCH / 64, metric: MM / 10 };

// Ticks of a text, or null where it is none of the plain forms. A tape is {units, strong}.
export function parse(text, tape) {
  const plain = text.trim().replace(/\s+/g, " ");
  const held = plain.match(/^(.+) held at (.+)$/);
  const body = plain.match(/^(.+) plus body (.+)$/);
  const [shown, way, other] = held ? [held[1], -1, held[2]] : body ? [body[1], 1, body[2]] : [plain, 0, ""];
  const first = strong(shown, tape);
  const second = way ? number(other, tape) : 0;
  if (first === null || second === null) return null;
  const ticks = first + way * second;
  return ticks < 0 || ticks > GREATEST ? null : ticks;
}

function strong(text, tape) {
  const found = text.match(/^(.+?) ?(\+|-|strong|shy)$/);
  if (!found) return number(text, tape);
  const ticks = number(found[1], tape);
  const more = found[2] === "+" || found[2] === "strong" ? tape.strong : -tape.strong;
  return ticks === null || ticks + more < 0 ? null : ticks + more;
}

function number(text, tape) {
  if (tape.units === "metric") return /^\d{1,6}(\.\d)?$/.test(text) ? Math.round(Number(text) * 10) * (MM / 10) : null;
  const feet = text.match(/^(\d{1,3})'(?: (.+))?$/);
  if (!feet) return inches(text, ASKS_OVER);
  const rest = feet[2] === undefined ? 0 : inches(feet[2], 11);
  return rest === null ? null : Number(feet[1]) * 12 * INCH + rest;
}

function inches(text, most) {
  const found = text.match(/^(?:(\d{1,4})(?: |$))?(?:(\d{1,2})\/(2|4|8|16|32|64))?$/);
  if (!found || !text || (found[1] === undefined && found[2] === undefined)) return null;
  const whole = Number(found[1] || 0);
  const [over, under] = [Number(found[2] || 0), Number(found[3] || 1)];
  if (whole > most || (found[2] && over >= under) || text.endsWith(" ")) return null;
  return whole * INCH + (over * INCH) / under;
}

// A length as the tape shows it; one between two lines stands behind a ~.
export function show(ticks, units) {
  const step = FINEST[units];
  const size = Math.abs(ticks);
  const count = Math.floor((2 * size + step) / (2 * step));
  const sign = (count * step === size ? "" : "~") + (ticks < 0 && count ? "-" : "");
  if (units === "metric") return sign + (count % 10 ? `${Math.floor(count / 10)}.${count % 10}` : `${count / 10}`);
  const whole = Math.floor(count / 64);
  let [over, under] = [count % 64, 64];
  if (!over) return `${sign}${whole}`;
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return sign + (whole ? `${whole} ` : "") + `${over}/${under}`;
}

const NAMES = { 2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth" };

// A text with its fractions in words, as it is said.
export function spoken(text) {
  return text.replace(/(?:(\d+) )?(\d+)\/(2|4|8|16|32|64)\b/g, (_, whole, over, under) => {
    const name = over === "1" ? NAMES[under] : under === "2" ? "halves" : `${NAMES[under]}s`;
    return whole ? `${whole} and ${over} ${name}` : `${over} ${name}`;
  });
}

// Whole inches, or hundreds of millimetres, that are carried over from a reading.
export function carried(ticks, units) {
  const whole = Math.floor(ticks / (units === "inch" ? INCH : 100 * MM));
  return whole > 0 && whole <= ASKS_OVER ? String(whole) : "";
}
