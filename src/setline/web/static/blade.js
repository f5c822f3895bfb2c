// The drawn inch of blade beside a number: the quickest proof against a slip.
import { INCH, MM } from "./tape.js";

const SVG = "http://www.w3.org/2000/svg";

function part(svg, name, values) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(values)) made.setAttribute(key, value);
  return svg.appendChild(made);
}

// An inch of blade with its sixteenths, or a centimetre with its half millimetres, and an arrow at the mark.
export function drawBlade(svg, units) {
  const count = units === "inch" ? 16 : 20;
  for (let n = 0; n <= count; n += 1) {
    const high = units === "inch" ? [26, 9, 13, 9, 17, 9, 13, 9, 21][n > 8 ? 16 - n : n] : n % 20 === 0 ? 26 : n % 10 === 0 ? 21 : n % 2 ? 8 : 14;
    const x = 12 + (256 / count) * n;
    part(svg, "path", { d: `M${x} 0V${high}`, class: "tick" });
  }
  part(svg, "text", { x: 3, y: 42, class: "from" });
  part(svg, "text", { x: 277, y: 42, class: "to", "text-anchor": "end" });
  part(svg, "path", { d: "M0 27L7 43H-7Z", class: "arrow" });
}

// Puts the arrow at a value; without one the blade is blank.
export function pointBlade(svg, ticks, units) {
  svg.classList.toggle("blank", ticks === null);
  if (ticks === null) return;
  const step = units === "inch" ? INCH : 10 * MM;
  const whole = Math.floor(ticks / step);
  const each = units === "inch" ? 1 : 10;
  svg.querySelector(".from").textContent = String(whole * each);
  svg.querySelector(".to").textContent = String((whole + 1) * each);
  svg.querySelector(".arrow").setAttribute("transform", `translate(${12 + (256 * (ticks - whole * step)) / step} 0)`);
}
