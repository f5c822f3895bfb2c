"""What every drawing carries: its heading, its scale in words and as a bar, and the corner it starts from."""

from __future__ import annotations

from setline.drawings.font import CAP_HEIGHT, text_width
from setline.drawings.labels import Label
from setline.drawings.pens import LEAST_TEXT
from setline.drawings.shapes import Anchor, Arc, Fill, Frame, Layer, Scale
from setline.drawings.sketch import Sketch, wrapped
from setline.drawings.struck_line import line_in_use, strike_words, tops_words
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units, show
from setline.result import Plan
from setline.wording import say

__all__ = ["draw_foot", "draw_heading", "draw_start", "fitted", "foot_height"]

_TITLE = 8.0
_STRIKE = 8.0
_ASIDE = 4.2
_NOTE = 3.8


def fitted(text: str, width: float, sizes: tuple[float, ...], *, bold: bool = False) -> Label:
    """Return a name at the largest size that fits a width, or cut with an ellipsis at the least."""
    for size in sizes:
        if text_width(text, size, bold=bold) <= width:
            return Label(text, size, bold)
    kept = text
    while kept and text_width(kept + "…", sizes[-1], bold=bold) > width:
        kept = kept[:-1]
    return Label(kept.rstrip() + "…", sizes[-1], bold)


def draw_heading(
    sketch: Sketch, plan: Plan, title: str, aside: str, *, banner: str = "", strikes: bool = True
) -> float:
    """Write what is shown and how it is seen, DO NOT SET if need be, the struck line, and the job's name.

    Returns:
        The y under the heading.
    """
    baseline = 0.8 + CAP_HEIGHT * _TITLE
    end = sketch.put(Label(title, _TITLE, True), 0.0, baseline)[2] + 2.5
    if banner:
        end, baseline = _draw_banner(sketch, banner, end, baseline)
    elif aside:
        end = sketch.put(Label(aside, _ASIDE), end, baseline)[2] + 2.5
    notes = ""
    if strikes:
        baseline = _write_strike(sketch, plan, end, baseline)
        notes = tops_words(plan.level_line, Units(plan.units))
    baseline = _write_second_line(sketch, notes, plan.job_name, baseline + 5.4)
    sketch.line(Layer.RULE, (0.0, baseline + 1.8), (sketch.frame.width, baseline + 1.8))
    return baseline + 2.6


def _draw_banner(sketch: Sketch, banner: str, left: float, baseline: float) -> tuple[float, float]:
    """Write words in reverse print beside the title, or under it if they are long; return where they end."""
    label = fitted(banner, sketch.frame.width - 3.0, (5.8, 4.6, 3.8, LEAST_TEXT), bold=True)
    width, height = label.extent()
    if left + width + 3.0 > sketch.frame.width:
        left, baseline = 0.0, baseline + height + 3.2
    box = (left, baseline - height - 0.4, left + width + 3.0, baseline + 1.2)
    sketch.box(Layer.TAG, box, Fill.BLACK)
    reverse = Label(label.text, label.size, bold=True, reverse=True, halo=False)
    sketch.write(reverse.centred((box[0] + box[2]) / 2, (box[1] + box[3]) / 2, frame=box))
    return box[2] + 3.0, baseline


def _write_strike(sketch: Sketch, plan: Plan, left: float, baseline: float) -> float:
    """Write the struck line at the right, the largest number of the sheet; return its baseline."""
    words = Label(strike_words(plan.level_line, Units(plan.units)), _STRIKE, True)
    set_up = line_in_use(plan.level_line)
    source = Label(say("strike-from", set_up=set_up.set_up) if set_up else "", _ASIDE)
    width = words.extent()[0] + source.extent()[0] + 2.0
    if left + width > sketch.frame.width:
        baseline += _STRIKE + 0.6
    start = max(0.0, sketch.frame.width - width)
    end = sketch.put(words, start, baseline)[2]
    if source.text:
        sketch.put(source, end + 2.0, baseline)
    return baseline


def _write_second_line(sketch: Sketch, notes: str, job: str, baseline: float) -> float:
    """Write the job's name and what goes with the struck line; return the baseline."""
    width = text_width(notes, _NOTE)
    name = fitted(job, max(40.0, sketch.frame.width - width - 6.0), (_ASIDE, 3.7, LEAST_TEXT))
    end = sketch.put(name, 0.0, baseline)[2]
    if end + 4.0 + width > sketch.frame.width:
        lines = wrapped(notes, _NOTE, sketch.frame.width) or []
        for line in lines:
            baseline += 4.8
            sketch.put(Label(line, _NOTE), 0.0, baseline)
    elif notes:
        sketch.put(Label(notes, _NOTE), sketch.frame.width, baseline, Anchor.END)
    return baseline


def draw_start(sketch: Sketch, x: float, y: float, radius: float = 4.0) -> None:
    """Draw the solid quarter disc at the corner that running numbers start from."""
    sketch.draw(Arc(Layer.RULE, (x, y), radius, 270.0, 360.0, is_sector=True, fill=Fill.BLACK))
    sketch.field.take((x, y - radius, x + radius, y))


def draw_foot(sketch: Sketch, scale: Scale, units: Units, notes: list[str], top: float) -> float:
    """Draw the scale as a bar and in words, and notes; return the y under them."""
    parts, each, end_text = _bar(scale, units)
    step = each / (TICKS_PER_MM * scale.ratio)
    bar_top = top + 4.4
    for part in range(parts):
        box = (part * step, bar_top, (part + 1) * step, bar_top + 1.4)
        sketch.box(Layer.SCALE, box, Fill.BLACK if part % 2 == 0 else Fill.WHITE)
    sketch.put(Label("0", LEAST_TEXT), 0.0, top + 3.4)
    sketch.put(Label(end_text, LEAST_TEXT), parts * step, top + 3.4, Anchor.END)
    length = show(round(each * parts / scale.ratio), units)
    unit = say(f"unit-{units.value}")
    lines = [say("scale-words", scale=scale.words), say("scale-check", length=length, unit=unit)]
    left = parts * step + 3.0
    for count, line in enumerate(lines):
        sketch.put(Label(line, LEAST_TEXT), left, top + 3.0 + 4.0 * count)
    left += max(text_width(line, LEAST_TEXT) for line in lines) + 5.0
    return _write_notes(sketch, notes, left, top, top + 8.2)


def _write_notes(sketch: Sketch, notes: list[str], left: float, top: float, below: float) -> float:
    """Write notes beside the scale where they fit, else under it; return the y under everything."""
    room = sketch.frame.width - left
    beside = [line for note in notes for line in wrapped(note, LEAST_TEXT, room) or []]
    if notes and len(beside) <= 2 and all(wrapped(note, LEAST_TEXT, room) for note in notes):
        for count, line in enumerate(beside):
            sketch.put(Label(line, LEAST_TEXT), left, top + 3.0 + 4.0 * count)
        return below
    for line in wrapped(" ".join(notes), LEAST_TEXT, sketch.frame.width, most=99) or []:
        sketch.put(Label(line, LEAST_TEXT), 0.0, below + 3.0)
        below += 4.0
    return below


def foot_height(scale: Scale, units: Units, notes: list[str], width: float) -> float:
    """Return how high the foot is."""
    return draw_foot(Sketch(Frame(width, 1e4)), scale, units, notes, 0.0)


def _bar(scale: Scale, units: Units) -> tuple[int, int, str]:
    """Return the scale bar's number of parts, the length of one in the room, and the label of its end."""
    if scale.ratio == 1:
        each = TICKS_PER_INCH if units == Units.INCH else 25 * TICKS_PER_MM
        return 4, each, say(f"scale-full-{units.value}")
    if units == Units.INCH:
        feet = next(
            f for f in (1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 50, 100, 150) if f * 12 / scale.ratio >= 1.5
        )
        parts = next(p for p in (4, 3, 2, 5, 1) if feet % p == 0) if feet > 1 else 2
        each = feet * 12 * TICKS_PER_INCH // parts
        return parts, each, say("scale-feet", feet=feet)
    length = next(n for n in (100, 200, 500, 1000, 2000, 2500, 5000, 10000, 25000) if n / scale.ratio >= 40)
    parts = 5 if length % 5 == 0 and length >= 500 else 2
    return parts, length * TICKS_PER_MM // parts, say("scale-mm", mm=length)
