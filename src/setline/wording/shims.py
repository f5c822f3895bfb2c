"""Sentences about shims, legs and ledgers."""

SENTENCES: dict[str, str] = {
    # how a number follows
    "work-unread": "no reading near enough, or too much doubt: ? stands here",
    "work-shim": "tops {tops}, box {box} high: its foot {foot}; floor {floor}: {thickness} between them",
    "work-leg-height": "tops {tops}, box {box} over its legs: {foot}; floor {floor}: legs {thickness} high",
    "work-ledger": "upper edge of the ledger {below} below the tops, which is {strike} below the struck "
    "line ({clearance} over the tops)",
    # findings
    "leg-out-of-range": "Legs that cannot be turned so far: {legs}.",
    "pack-legs": "Stand them on packers, or fit legs of another length.",
    "box-below-floor": "At this line the foot comes below the floor: {boxes}.",
    "trim-them": "Cut off the foot of {boxes}, or take the line back and raise it.",
    "shims-do-not-make-up": "The shims on the truck do not make up {points}: up to {remainder} is left "
    "over. Plane one down.",
}
