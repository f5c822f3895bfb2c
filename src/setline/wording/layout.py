"""Sentences of the layout: names of pieces, the working of a mark, conflicts, ways out, what to watch."""

SENTENCES: dict[str, str] = {
    # what things are called
    "filler-name": "filler",
    "panel-name": "panel",
    "plain-filler": "filler {number}",
    "scribed-filler": "scribed filler {number}",
    "panel-said": "panel {number}",
    "box-said": "box {number}",
    "named-box": "{name} box {number}",
    "left-wall": "the left wall",
    "right-wall": "the right wall",
    "existing-edge": "the {what}",
    "open-end": "the open {side} end",
    "open-end-at": "the open {side} end at {at}",
    "faces": "the faces of {run}",
    "corner-box": "corner box {number}",
    "left-of": "the left edge of {what}",
    "centre-of": "the centre of {what}",
    "right-of": "the right edge of {what}",
    "window-centre": "the window centre",
    "wall-middle": "the middle of wall {wall}",
    "to-the-left": "left",
    "to-the-right": "right",
    "over": "over",
    "under": "under",
    "both-ends": "its left and right ends",
    "one-end": "its {side} end",
    # what a row demands
    "at-least": "{what} at least {width}",
    "at-most": "{what} at most {width}",
    "of-width": "{what} ({width})",
    "half-of": "half of {what} ({half})",
    "pulled-at-most": "{what} pulled from its corner {pull} at most",
    "in-sight": "{what} with {visible} in sight past {away} from its corner ({beside} and the filler there)",
    "stands-at": "{what} at {width}",
    "touches": "{what} hard against its neighbour",
    "pinned-edge": "the {edge} edge of {what} at {at}",
    "pinned-centre": "the centre of {what} at {at}",
    "pin-demand": "{what}: {edge} at {place}",
    "tie-demand": "{what}: {edge} in line with {place}",
    "end-demand": "{what} at {at}",
    # the working of an end
    "left-is-datum": "left corner, where the tape hooks: 0",
    "left-by-length": "{reading} is shorter than the right end says: the left end stands at {at}",
    "right-is-length": "{reading}: {at}",
    "right-is-least-length": "least length in the boxes' height, {reading}: {at}",
    "right-less-short": "lengths fall {short} short of the offsets: {at}",
    "end-leans": "{side} end stands out most at {at}: {datum} {sign} {shift} = {end}",
    "end-stands": "{side} end is plumb there or leans away: {end}",
    "end-as-read": "{what}, as read: {at}",
    "end-open-at": "open end, at {at} at the farthest",
    "end-open-anywhere": "open end, without a limit of its own",
    "end-comes-to": "the run comes to end at {at}",
    "end-at-faces": "{what}, square and without a gap: {wall} {sign} {away} = {at}",
    # the working of a joint and of a mark
    "pin-at": "pinned at {at}",
    "window-centre-read": "window centre, as read: {at}",
    "window-centre-halved": "window centre, half-way from {left} to {right}: {at}",
    "middle-halved": "half of {length}: {at}",
    "middle-by-equal-marks": "equal marks {equal} from both ends, {apart} apart: {equal} {sign} {half} = "
    "{at}",
    "first-place": "as far left as it may be: {at}",
    "one-item-on": "{what}, {width}: {start} {sign} {width} = {end}",
    "one-item-chosen": "{what}, {width} of {window}: {start} {sign} {width} = {end}",
    "window-from": "{least} or more",
    "window-from-to": "{least} to {most}",
    "pulled-from": "pulled {pull} from its corner: {start} {sign} {pull} = {end}",
    "half-off": "half of {what}, {width}: {start} {sign} {half} = {end}",
    "in-line-with": "in line with {what} ({run}): {at}",
    "body-edge": "frame stands {overhang} past the body of {what}: {start} {sign} {overhang} = {end}",
    "printed-at": "{exact} prints as {printed}",
    "no-place": "{run} cannot be solved as it stands: nothing in it has a place.",
    # conflicts
    "conflict-short": "{run}: from {start} to {end} you have {room}. The pieces need {needed}: {pieces}. "
    "{short} short.",
    "conflict-over": "{run}: from {start} to {end} you have {room}. The pieces fill {needed} at the most: "
    "{pieces}. {short} left over.",
    "conflict-in-line": "{least} bring {low_edge} to {low_at} at the least. {most} bring {high_edge} to "
    "{high_at} at the most. The two rows miss each other by {short}.",
    "from-with": "{run}: from {start} at {at}, {pieces}",
    "from-alone": "{run}: {start} at {at}",
    "conflict-listed": "{run}: these cannot all hold: {pieces}. They miss by {short}.",
    "no-way-out": "No single kind of change cures it: take a piece out, or let two things give.",
    "cured-with-first": "The ways out above cure this as well.",
    "run-waits": "{run} waits for {other}: the place of {what} rests on it.",
    # ways out
    "remedy-narrower-filler": "{changes}.",
    "remedy-wider-filler": "{changes}.",
    "remedy-move-pin": "let {changes}.",
    "remedy-scribe-stile": "plane {changes}.",
    "remedy-cut-plaster": "cut {changes}.",
    "remedy-shift-run": "let {changes}.",
    "remedy-check-sheet": "look at the sheet: it would do with {changes}.",
    "remedy-smaller-box": "{what} in {width} instead of {instead}: a new box. Fillers take what is left.",
    "remedy-next-stock-size": "{what} in {width} instead of {instead}: a new box. Fillers give the rest.",
    "remedy-drop-wish": "Let the wish go that the {edge} of {number} stands at {place}.",
    "change-narrower": "{what} at {width} instead of at least {limit}",
    "change-wider": "{what} at {width} instead of at most {limit}",
    "change-over-stock": "{told} (wider than {stock} stock: two strips)",
    "change-corner-filler": "the corner filler beside {what} at {width}",
    "change-pin": "{what} sit {by} {way} of {place}",
    "change-stile": "{by} off the stiles of {what}",
    "change-plaster": "{by} into {what}",
    "change-open": "{run} reach {by} past {what}",
    "change-sheet": "{what} at {width}",
    # readings to take
    "no-plumb": "Wall {wall}: nothing was read back from a plumb line at {ends}. {length} is usable by the "
    "lengths alone; walls that lean together do not show in them.",
    "read-plumb": "Read wall {wall} at {ends} from a plumb line: at the kick, at the box tops, and at the "
    "top of what is tall.",
    "plumb-far": "{run} reaches more than {near} past the plumb offsets at its {side} end: the wall is "
    "taken plumb there.",
    "lengths-disagree": "{run}: a length falls {by} short of what the plumb offsets say. The shorter "
    "counts; read the length and the offsets again.",
    "faces-narrower": "{run}: at the faces there is {by} less than at the wall, and no offset says at "
    "which end. It was taken off the right end; read the offsets at the face line.",
    # pieces to look at
    "wish-missed": "{run}: {edge} of {number} comes {by} {way} of {place}, where it was wished.",
    "opening-wish-missed": "{what} comes to {width} clear; {wished} was wished.",
    "filler-over-stock": "{what} comes to {width}; stock is {limit} wide. Use two strips or a panel.",
    "filler-narrow": "{what} comes to {width}, under {limit}: see that what opens beside it clears.",
    "nothing-gives": "{run}: nothing between {start} and {end} can give. What the boxes grow has nowhere "
    "to go.",
    "marks-joined": "{one} and {other} are {apart} apart: strike them as one.",
    "wall-row-no-bottom": "{run} has no height of its own: its underside stands {height} above the level "
    "line by the rule.",
    "sheet-general": "{what} stands at a general size, {width} clear. Its maker's sheet may ask for another.",
    "get-the-sheet": "Get the sheet of {what} and put in its sizes.",
    "box-not-here": "{what} is not here: its width, {width}, is as ordered. Measure it when it comes.",
    "box-damaged": "{what} is damaged. Set it, or leave its {width} free and go on?",
    "box-measured-differs": "{what} measured {measured}, ordered {ordered}: {by} {way}. The measured width "
    "counts.",
    # planning clearances
    "clearance-dishwasher-to-corner": "{what} stands {have} from {other}; its door wants {want}. Its sheet "
    "decides.",
    "clearance-dishwasher-to-sink": "{what} stands {have} from {other}; {want} at the most is the guideline.",
    "clearance-sink-landing-wide": "{what}: {have} of counter on its better side, the {side}; {want} is "
    "the guideline.",
    "clearance-sink-landing-narrow": "{what}: {have} of counter on its {side}; {want} is the guideline.",
    "clearance-range-landing-wide": "{what}: {have} of counter on its better side, the {side}; {want} is "
    "the guideline.",
    "clearance-range-landing-narrow": "{what}: {have} of counter on its {side}; {want} is the guideline.",
    "clearance-refrigerator-landing": "{what}: {have} of counter beside it; {want} on the handle side is "
    "the guideline.",
}
