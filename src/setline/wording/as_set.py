"""Sentences of boxes that are set and of marks that were struck: facts, changes, ways."""

SENTENCES: dict[str, str] = {
    # the working of an edge as set
    "as-set-read": "{what} as set, {edge} edge of its {of} read: {at}",
    "as-set-on-mark": "{what} as set, {edge} edge of its {of} on the mark: {at}",
    "as-set-overhang": "the frame stands past the body: {start} {sign} {overhang} = {end}",
    "as-set-half-way": "read twice, {one} and {other}: half-way, {at}",
    "as-set-shared": "between {start} and {end}, in proportion to the boxes' widths: {at}",
    "as-set-by-struck": "set on its mark, struck at {at}; not read",
    "as-set-by-agreed": "set where it was agreed, {at}; not read",
    # what to know of a set box
    "set-width-differs": "{what} went in {width} wide. It is {asked}: {by} {way}. What stands counts.",
    "set-width-odd": "{what} comes to {width} between the edges read; it is {asked}, {by} {way}.",
    "read-edges-again": "Read both edges of {what} again.",
    "set-not-read": "{what} is set and was not read: it stands as planned.",
    "set-off-end": "{what} stands {by} off {end}.",
    "set-past-end": "{what} stands {by} past {end}, as that was read. Read the wall's length again.",
    "set-top-high": "Box {number} stands {by} above the level line at its front {side}.",
    "set-top-low": "Box {number} stands {by} below the level line at its front {side}.",
    "raise-set-box": "Loosen box {number} and lift its front {side} {by}.",
    "lower-set-box": "Loosen box {number} and lower its front {side} {by}.",
    "pin-missed-as-set": "{run}: {edge} of {number} stands {by} {way} of {place}, as set.",
    # conflicts with what is set
    "set-edge": "the {edge} edge of {what} (set: {at})",
    "set-demand": "{what}: set, its {edge} edge at {at}",
    "take-out-box": "Take {what} out again. Its marks stay as they are.",
}
