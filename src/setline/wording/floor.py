"""Sentences about the room's outline, the laser, the floor and the level line."""

SENTENCES: dict[str, str] = {
    # the outline
    "corners-do-not-close": "Walls {walls} are said to close the room, but their corners make {turned} "
    "quarter turns to the right and it takes 4. The outline is drawn open: look at which corners are "
    "inside and outside.",
    "outline-closes-nearly": "Walls {walls} miss closing by {along} along wall A and {across} across it, "
    "within what tape readings differ by ({expected}). It was spread over the walls.",
    "outline-does-not-close": "Walls {walls} miss closing by {along} along wall A and {across} across it; "
    "with square corners {expected} is to be expected. It was spread over the walls. A corner is out of "
    "square, or one length is a slip: read the lengths again.",
    # heights and places, as parts of other sentences
    "height-down": "{distance} down",
    "height-up": "{distance} up",
    "and": "{first} and {last}",
    "at-u": "{wall} {first}",
    "from-u-to-u": "{wall} {first} to {last}",
    "side-of-box": "box {box}'s {side} side",
    "side-of-opening": "{appliance}'s {side} side",
    "points-between": "{count} places from {first} to {last}",
    "line-wall": "wall line",
    "line-toe": "toe line",
    "line-both": "wall and toe line",
    "line-of": "{wall} {line} line",
    "line-out-of": "{wall} line {line} out",
    "line-from": "{name} from {set_up}",
    "line-part": "{name}, part {part}",
    "the-floor": "floor",
    "the-laser": "laser",
    "the-line": "level line",
    "agreed-line": "agreed line",
    "at-window": "window {window}",
    "opening-point-wall": "{appliance}, {side}, at the wall",
    "opening-point-toe": "{appliance}, {side}, at the toe line",
    "two-wall-proof": "two-wall reversal",
    "two-peg-proof": "two-peg test",
    "where-tops-do-not-meet": "where the tops do not meet",
    "split-at": "at {item} {number}",
    # what sets a limit
    "owner-high-spot": "high spot, {point}",
    "owner-legs-in": "legs all the way in, {point}",
    "owner-legs-out": "legs all the way out, {point}",
    "owner-clear-below": "{appliance}, least height",
    "owner-run-out": "{appliance}, greatest height",
    "owner-ceiling": "ceiling over tall box {box}",
    "owner-sill": "sill of {window}",
    "owner-kick": "toe kick, {point}",
    "owner-standing-top": "top of {name} {number}",
    # how a number follows
    "work-read": "floor at {point}: {height} ({readings})",
    "work-middle": "floor at {point}: {height}, the middle of readings equally near ({readings})",
    "work-mean": "bare floor at {point}: {height}, by the surface through the readings around it (nearest "
    "{readings})",
    "work-bare": "less {thickness} laid there: bare floor {height}",
    "work-over": "with {thickness} on the bare floor: {height}",
    "work-foot": "floor {height}, box {foot} high on it: tops {tops}",
    "work-leg": "floor {height}, leg {leg} and box {foot} over it: tops {tops}",
    "work-opening": "finished floor {floor}, {wanted} clear over it: tops {tops}",
    "work-opening-top": "finished floor {floor}, {wanted} over it, less the {top} top: box tops {tops}",
    "work-ceiling": "ceiling {ceiling}, less {clearance} to ease it in, less {over} of box over the base "
    "tops: tops {tops}",
    "work-sill": "sill {sill}, less {clearance} for a joint and the {top} top: box tops {tops}",
    "work-standing-top": "its upper face {face}, less the {top} top: box tops {tops}",
    "work-kick": "finished floor {floor}, strip and shoe cover {allowed}, kick starts {under} under the "
    "tops: tops {tops}",
    "work-rounded": "{owner} sets the line; tops up to a whole step of the tape: {tops}",
    "work-whole": "{owner} sets the line: tops {tops}",
    "work-no-line": "no bearing point has a number, so nothing sets a line",
    "work-struck": "{line} reads {strike} down from {set_up}; tops {clearance} below it: {level}",
    "work-agreed": "agreed at {level} down from {set_up}",
    "work-level": "from {set_up}'s laser line: {level}",
    "work-level-above": "{set_up}'s laser line lies {offset} above the one in use; tops {tops} there: "
    "{level} from {set_up}",
    "work-level-below": "{set_up}'s laser line lies {offset} below the one in use; tops {tops} there: "
    "{level} from {set_up}",
    "work-not-tied": "{set_up} shares no mark with the set-up in use, so its line is not known",
    "work-strike": "{level} less {clearance} for the struck line: {strike}",
    # ways out of a conflict over the line
    "relax-raise-line": "Take the line at {line}: every shim grows {amount}.",
    "relax-strike-anew": "Take {line} back and strike it anew for tops {to}.",
    "relax-trim-box": "Cut {amount} off the foot of box {box}.",
    "relax-flatten-floor": "Take the floor down {amount} there ({owner}).",
    "relax-other-legs": "Fit shorter legs, by {amount} ({owner}).",
    "relax-packer-under-legs": "Stand the legs there on {amount} of packer ({owner}).",
    "relax-packer-under-top": "Put {amount} of packer under the top, between box tops and stone ({owner}).",
    "relax-packer-under-appliance": "Stand it on {amount} of packer ({owner}).",
    "relax-cut-plaster": "Cut {amount} out of the board there, and make it good ({owner}).",
    "relax-trim-sill": "Trim {amount} off the stool or apron ({owner}).",
    "relax-wider-kick": "Rip the toe board there from a strip {amount} wider ({owner}).",
    "relax-split-line": "Let the new tops stand {amount} above it ({owner}).",
    "relax-check-sheet": "Get the maker's sheet: this is a general size ({owner}).",
    "cheapest-way": "Cheapest way out: {way}",
    # the line
    "line-above-high-spot": "{owner}, sets the line: {line}, which is {amount} above what the high spot "
    "alone asks ({alone}). Every shim grows {amount}.",
    "no-line-fits": "No line suits all: {low} asks for tops {lowest} or higher, {high} for {highest} or "
    "lower, {short} apart. The high spot's line ({line}) is printed; do not set to it.",
    "line-not-tied": "The {line} is measured from {set_up}, which shares no mark with the set-up in use: "
    "no shim can be worked out from it.",
    "line-too-low": "The {line} stands {by} too low for {owner}.",
    "line-too-high": "The {line} stands {by} too high for {owner}.",
    "tie-set-up": "Shoot one fixed mark from {set_up} and from the set-up in use.",
    "no-floor-reading": "No floor reading yet: there is no line and every shim prints as ?. Read the "
    "floor at the wall and at the toe line, at every box side.",
    "no-bearing-read": "No bearing point has a reading near enough: there is no line and every shim "
    "prints as ?.",
    "read-first-spots": "Read the floor under each run, wall and toe line, every 2 ft and at every box side.",
    # readings to take
    "unread-far": "No reading within {distance} of {points}: ? stands there.",
    "unread-doubt": "The floor at {points} is known within {within} only, where {limit} is asked: ? "
    "stands there.",
    "unread-may-rise": "It may stand up to {rise} too high for the line.",
    "read-spots": "Read {spots}, {line}.",
    "few-readings": "{count} floor readings, where {enough} make a first walk. The line may rest on a "
    "spot that is not the highest.",
    "more-readings": "Take {count} more, at box sides, wall and toe line.",
    "no-reading-across": "Wall {wall} has no reading at the {wanted}: how the floor falls across the "
    "depth of its boxes is a guess.",
    "read-other-line": "Read wall {wall}, {line}.",
    "readings-disagree": "{readings}: {apart} apart at one spot. Their middle is used until one is read "
    "again.",
    "read-spot-again": "Read {spot} again.",
    "covering-not-known": "No covering is named, laid or to come: {appliances} stands on the floor as "
    "read. Say what floor is to come, or the clear height is too great by its thickness.",
    "top-thickness-not-known": "The height of {appliance} is measured to the top of the tops, and their "
    "thickness is not known: it sets no limit to the line.",
    "ceiling-not-read": "No ceiling reading within {distance} of tall box {box}: whether it can stand "
    "there is not known. {ask}",
    "read-ceiling": "Read the ceiling, {wall} {u}, up from the laser line.",
    # the laser
    "laser-not-proved": "The laser was not proved on this job: mark a wall, turn it round from the far "
    "side, mark again.",
    "laser-out-of-rating": "The {proof} missed by {found}, where the laser's rating allows {allowed}: the "
    "line climbs or falls as it goes. Tops set by it are out of level by as much.",
    "prove-again": "Prove the laser again; if it misses again, use another or have it adjusted.",
    "closing-shot-off": "{set_up} closed on {again} where it opened on {first}: {found} off, where "
    "{limit} is allowed. The laser was moved or knocked between them, and its readings are in doubt.",
    "read-set-up-again": "Read {set_up} again from a firm stand.",
    "set-up-not-tied": "{set_up} shares no mark with {in_use}: its {count} readings tell the floor's "
    "shape but stand nowhere as read. Shoot one fixed mark from both.",
    "marks-disagree": "{one} and {other} share {marks}, which differ by {apart} on how far apart their "
    "laser lines lie. One of the marks is a slip, or a laser moved. The mean is used.",
    "read-marks-again": "Shoot the shared marks again.",
    # how the floor lies
    "floor-falls-left": "The floor falls {fall} in {length} to the left along {line}.",
    "floor-falls-right": "The floor falls {fall} in {length} to the right along {line}.",
    "widest-gap": "Widest gap under a {length} straightedge: {gap}, {line} at {at}.",
    "highest-hump": "It rocks on a hump of {hump}, {line} at {at}.",
    # a floor that falls too far
    "floor-falls-too-far": "{point} needs {shim}, where {limit} is the most that is shimmed; {count} "
    "points are over it.",
    "one-shim-too-thick": "{point} needs {shim}, where {limit} is the most that is shimmed.",
    "trim-one": "box {box} by {amount}",
    "option-trim": "Trim {trims}: the line comes down {lowered}",
    "option-ladder": "Ladder base under boxes {boxes}",
    "option-ladder-one": "Ladder base under box {boxes}",
    "option-split": "Split the line {place}: the lower part comes down {lowered}",
    "option-flatten": "Take the floor down at {count} points from {first} on, {deepest} at most: the line "
    "comes down {lowered}",
    "option-leaves": "{option}; greatest shim left {greatest}.",
}
