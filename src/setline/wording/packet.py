"""Sentences of the packet.

Keys that start with ``packet-label-`` are headings and labels: the templates call them by the rest
of the key.
"""

SENTENCES: dict[str, str] = {
    # numbers
    "packet-within": "within {doubt}",
    "packet-down": "DOWN",
    "packet-up": "UP",
    "packet-at-wall": "at the wall",
    "packet-out": "{out} out from the wall",
    "packet-hours": "{hours} h",
    "packet-days": "waits {days} days",
    "packet-one-day": "waits 1 day",
    "packet-readings-more": "{shown}; and {more} more",
    "packet-rule": "Rule {rule} ({source})",
    "packet-rests-on": "Rests on: {what}",
    "packet-rank-stop": "STOP",
    "packet-rank-decide": "DECIDE",
    "packet-rank-watch": "WATCH",
    "packet-rank-note": "NOTE",
    # foot
    "packet-foot": "rev {revision} · {date}check {check} · plan",
    "packet-label-foot-page": "page {n} of {all}",
    # the line
    "packet-strike": "STRIKE",
    "packet-from-laser": "from the laser line of set-up {set_up}",
    "packet-tops": "Box tops are {clearance} below it ({level} {way}).",
    "packet-tops-at-line": "Box tops are at the line.",
    "packet-doubt": "{within}.",
    "packet-no-line": "Nothing is known of the floor under the boxes yet, so there is no line to strike.",
    "packet-no-line-short": "STRIKE ? (no line yet)",
    "packet-no-line-from": "no floor reading supports a line",
    "packet-other-set-up": "From set-up {set_up} the same line is {strike} {way}.",
    "packet-strike-short": "STRIKE {strike} {way} from the laser line of {set_up}",
    # cover
    "packet-title": "{job}: packet",
    "packet-measured-by": "measured by {who}",
    "packet-cover-stop": "DO NOT SET {where} yet: see STOP below.",
    "packet-cover-more": "And {count} more on the findings page.",
    "packet-start": "START: left corner, hook the tape once",
    "packet-start-walls": "Walls {walls}: the left corner, facing it. Hook the tape there once.",
    "packet-start-wall": "Wall {walls}: the left corner, facing it. Hook the tape there once.",
    "packet-and": "{first} and {last}",
    "packet-first-stops": "Settle what stands under STOP below. Set no box in those runs before.",
    "packet-first-laser-on-mark": (
        "Bring the laser back to the line of {set_up}: from it, {mark} reads {reading} {way}."
    ),
    "packet-mark-down": "down",
    "packet-mark-up": "up",
    "packet-first-laser": (
        "Bring the laser back to the line of {set_up}; it was read with no mark to prove it by."
    ),
    "packet-first-strike": (
        "Strike the line on every wall, {strike} {way} from the laser line. Mark START on each."
    ),
    "packet-first-high-spot": "High spot: {point}, wall {wall}, {u} from its left corner, {out}. Start there.",
    "packet-first-marks": "Write the marks, edges first, then numbers, wall by wall from its marks sheet.",
    "packet-first-set": (
        "Lay the shims out on the floor by the shim maps, then set to the line, never to the box beside."
    ),
    "packet-label-cover-first": "FIRST",
    "packet-label-cover-start": "START",
    "packet-label-cover-contents": "PAGES, print at 100 %",
    "packet-label-cover-open": "STILL OPEN",
    "packet-label-cover-nothing-open": "NOTHING IS OPEN",
    "packet-caution": (
        "These sheets advise; they certify nothing. The maker's sheet and the local code stand over every"
        " number on them. Gas, electric and water lines are work for licensed trades: find what is in a "
        "wall before a screw or a saw goes in, and shut it off. Wall boxes and tall boxes fall: two "
        "people, a ledger or a lift, and screws in wood before anyone lets go."
    ),
    "packet-contents-findings": "Findings and ways out",
    "packet-contents-floor": "Floor as found",
    "packet-contents-next": "What to read next",
    "packet-contents-wall": "Wall {wall}: {what}",
    "packet-contents-marks": "marks",
    "packet-contents-shims": "shim map",
    "packet-contents-as_set": "As set, blank",
    "packet-contents-words": "Words and signs",
    "packet-contents-pole": "story pole",
    # findings
    "packet-label-findings-title": "Findings",
    "packet-label-findings-ranks": (
        "STOP: set nothing there. DECIDE: someone must choose. WATCH: look again. NOTE: good to know."
    ),
    "packet-label-findings-none": "Nothing was found that anyone must know.",
    "packet-label-findings-ways-out": "WAYS OUT, the quickest first",
    # marks
    "packet-marks-title": "WALL {wall}, seen facing it",
    "packet-marks-order": (
        "Strike the line, then START, then edges left to right, then numbers. Each number is from START, never "
        "from the mark before it. No ink on finished paint."
    ),
    "packet-do-not-set": "DO NOT SET {runs}",
    "packet-differs": "{text} Strike out and write anew: {marks}.",
    "packet-differs-mark": "{was}, now {write}",
    "packet-trouble": "{n} {rank}: {text}",
    "packet-run": "{name}: write {count} marks",
    "packet-run-ends": "from {left} to {right}",
    "packet-run-hangs": "{ends}; undersides of the boxes {up} UP from the struck line",
    "packet-run-unsolved": "DO NOT SET: the pieces overrun the room they have by {over}. Its marks are ?.",
    "packet-mark-body": "body edge of {box}",
    "packet-mark-frames": "frame to frame",
    "packet-mark-joint": "edge",
    "packet-mark-play": "may lie {least} to {most}",
    "packet-high-spot-short": "X {under} HIGH",
    "packet-ledger-short": "ledger",
    "packet-label-marks-as-set": "as set",
    "packet-label-marks-floor": "ON THE FLOOR",
    "packet-label-marks-floor-note": "Write at each corner what goes under it. Back is at the wall.",
    "packet-label-box": "Box",
    "packet-label-back-left": "Back left",
    "packet-label-back-right": "Back right",
    "packet-label-front-left": "Front left",
    "packet-label-front-right": "Front right",
    "packet-label-others": "Other points",
    # shims
    "packet-shims-title": "WALL {wall}: what goes under each point",
    "packet-shims-unknown": "{count} points print as ?",
    "packet-shims-note": (
        "Seen from above, wall at the top. Every number is from the one line, never from the box beside "
        "it. What goes in at the back goes in first: it cannot be reached later."
    ),
    "packet-shim-unknown": "not read: see What to read next",
    "packet-shim-leg-over": "the leg does not turn to {height}: block it or trim the box",
    "packet-shim-over": "over the limit: block it, no stack of shims",
    "packet-shim-high-spot": "HIGH SPOT: sits on the floor",
    "packet-shim-leg": "turn the leg to {height}",
    "packet-shim-ladder": "ladder base {height} high here",
    "packet-shim-ledger": "ledger: its upper edge {height} below the box tops",
    "packet-shim-remainder": "{stack}, and {rest} that is not on the truck",
    "packet-shim-not-on-truck": "{rest}: no shim on the truck makes it up",
    "packet-shim-none": "sits on the floor",
    "packet-label-shims-point": "Point",
    "packet-label-shims-under": "Under it",
    "packet-label-shims-made-of": "Made of",
    "packet-label-shims-within": "Sure",
    "packet-label-shims-rests-on": "Rests on",
    # floor
    "packet-floor-count": "{count} readings",
    "packet-floor-high": "High spot under the boxes: wall {wall}, {u} from its left corner{doubt}.",
    "packet-floor-fall": "From the highest reading ({high}) to the lowest ({low}) the floor falls {fall}.",
    "packet-slope-level": "level",
    "packet-slope-right-up": "{slope} up to the right",
    "packet-slope-right-down": "{slope} down to the right",
    "packet-limit-least": "or higher",
    "packet-limit-most": "or lower",
    "packet-tops-down": "{tops} down",
    "packet-tops-up": "{tops} UP",
    "packet-trim": "{box}: {trim}",
    "packet-label-floor-title": "How flat it is",
    "packet-label-floor-line": "Line of readings",
    "packet-floor-gap": "Gap under {edge} edge",
    "packet-label-floor-gap-at": "at",
    "packet-floor-slope": "Slope over {edge}",
    "packet-label-floor-numbers": "E1155",
    "packet-label-floor-flatness-note": (
        "FF and FL (ASTM E1155) stand only where a line was read at even steps of 12 in (300 mm), 12 readings or more."
    ),
    "packet-label-floor-limit": "What limits the box tops",
    "packet-label-floor-side": "Tops",
    "packet-label-floor-tops-at": "From the laser line",
    "packet-label-floor-options": "WAYS TO LIVE WITH THE FALL",
    "packet-label-floor-option": "Way",
    "packet-label-floor-lowered": "Line comes down",
    "packet-label-floor-greatest": "Greatest shim left",
    "packet-label-floor-trim": "Trim box",
    "packet-label-floor-cost": "Cost",
    "packet-label-floor-readings": "EVERY FLOOR READING, down from its laser line",
    "packet-label-floor-spot": "Spot",
    "packet-label-floor-down": "Down",
    "packet-label-floor-sign": (
        "This is the floor as it was found, before any cabinet was set. Seen by the client:"
    ),
    "packet-label-floor-name": "Name",
    "packet-label-floor-signed": "Signed",
    "packet-label-floor-date": "Date",
    # next readings
    "packet-next-spot": "{wall} {u}, {out}",
    "packet-next-unknown": "No reading near: {points} prints as ?",
    "packet-next-all-read": "Every point under the boxes has a reading near it: none prints as ?.",
    "packet-risk": "The risk that a spot under the boxes stands over the line's high spot: {odds} in 100. Nine times in ten it is at most {most}.",
    "packet-risk-settled": (
        "Enough was read for the line: the odds that a spot under the boxes stands more than {move} over it "
        "are under 5 in 100."
    ),
    "packet-label-next-title": "What to read next",
    "packet-label-next-where": "Spot",
    "packet-label-next-why": "Why",
    "packet-label-next-more": "ROOM FOR MORE READINGS",
    "packet-label-next-more-note": "One line a spot. The tape shows how far it is down from the laser line.",
    "packet-label-next-set-up": "Set-up",
    "packet-label-next-wall": "Wall",
    "packet-label-next-from-corner": "From its left corner",
    "packet-label-next-from-wall": "Out from the wall",
    "packet-label-next-read": "Down from the laser",
    # as set
    "packet-as-set-unsolved": "{name}: DO NOT SET",
    "packet-label-as-set-title": "As set",
    "packet-label-as-set-note": (
        "Pencil in what stands, after each box is fast: its edges from START, and how far its top is from"
        " the line at the back and at the front (0 is on it)."
    ),
    "packet-label-as-set-number": "No.",
    "packet-label-as-set-what": "What",
    "packet-label-as-set-left": "Left mark",
    "packet-label-as-set-left-set": "left as set",
    "packet-label-as-set-right": "Right mark",
    "packet-label-as-set-right-set": "right as set",
    "packet-label-as-set-back": "Top, back",
    "packet-label-as-set-front": "Top, front",
    "packet-label-as-set-fast": "Fast",
    "packet-label-as-set-by": "Set by",
    "packet-label-as-set-date": "Date",
    # words and signs
    "packet-label-words-title": "Words and signs on these sheets",
    "packet-sign-line": "Struck line",
    "packet-sign-line-means": (
        "The line on the wall. Everything is set to it. Box tops stand a little below it."
    ),
    "packet-sign-laser": "Laser line",
    "packet-sign-laser-means": (
        "Where the beam stood when the floor was read. Measure down from it; UP is said where meant."
    ),
    "packet-sign-start": "START",
    "packet-sign-start-means": "The corner the tape hooks on, once. All marks of a wall are from it.",
    "packet-sign-mark": "31 1/2 |3>",
    "packet-sign-mark-means": "Write this on the wall, with the upright line at 31 1/2 from START.",
    "packet-sign-box-right": "|3>",
    "packet-sign-box-right-means": "Box 3 stands to the right of the line.",
    "packet-sign-box-left": "<3|",
    "packet-sign-box-left-means": "Box 3 stands to the left of the line.",
    "packet-sign-unknown": "?",
    "packet-sign-unknown-means": "No reading is near enough. It is not 0. Read there first.",
    "packet-sign-near": "~",
    "packet-sign-near-means": "Carried over from another set-up, or between two lines of the tape: nearly.",
    "packet-sign-within": "within 1/16",
    "packet-sign-within-means": "How sure: the true number lies no further off than that, 19 times in 20.",
    "packet-sign-high-spot": "X 0 HIGH",
    "packet-sign-high-spot-means": "High spot: the box sits on the floor here and sets the line.",
    "packet-sign-shim": "3 back-left",
    "packet-sign-shim-means": (
        "The point under box 3 at its left side, at the wall. Front is at the toe line."
    ),
    "packet-sign-body": "Body, frame",
    "packet-sign-body-means": (
        "The body is the case; the frame may stand past it. Marks beside a wall or an opening are at the "
        "body."
    ),
    "packet-sign-stop": "STOP",
    "packet-sign-stop-means": "Do not set there before it is settled.",
    "packet-sign-decide": "DECIDE",
    "packet-sign-decide-means": "Someone must choose; the ways out stand under it.",
    "packet-sign-watch": "WATCH, NOTE",
    "packet-sign-watch-means": "Look again when you are there; good to know.",
    "packet-sign-plan": "plan",
    "packet-sign-plan-means": "At the foot: planned numbers. What stands goes on the as-set sheet.",
    "packet-drawn-level": "The struck line.",
    "packet-drawn-laser": "The laser line.",
    "packet-drawn-start": "START.",
    "packet-drawn-solid": "Wall or floor; the slant ticks are its solid side.",
    "packet-drawn-filler": "A filler, its width beside it.",
    "packet-drawn-panel": "A panel.",
    "packet-drawn-opening": "An opening, for what goes into it.",
    "packet-drawn-body": "A mark at a body edge; it points to that body.",
    "packet-drawn-unread": "Not read.",
    "packet-drawn-high": "The high spot, as you write it on the floor.",
    "packet-drawn-short": "Here it does not fit.",
    # story pole
    "packet-pole-title": "WALL {wall}: story pole",
    "packet-pole-part": "from {least} to {most}",
    "packet-pole-start": "{wall} START",
    "packet-pole-match": "{wall} {u}",
    "packet-pole-none": "NO MARK ON THIS SHEET",
    "packet-pole-list": "MARKS ON THIS SHEET",
    "packet-label-pole-square": "This square is 4 in (101.6 mm) each way.",
    "packet-label-pole-print": "If it is not, print again at 100 %, with no fitting to the page.",
    "packet-label-pole-rule": "This rule is 100 mm long.",
    "packet-label-pole-how": (
        "Cut the strips out. Lay the dashed line at the left of a strip on the dashed line of the same name "
        "on the strip before, and tape both to a straight stick. Marks of the base row stand on the lower "
        "edge, marks of the wall row hang from the upper edge. Prove the whole stick with a tape before a "
        "mark is taken from it."
    ),
}
