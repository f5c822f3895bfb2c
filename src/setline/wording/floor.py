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
}
