"""Sentences about how sure the line is, and what to read next."""

SENTENCES: dict[str, str] = {
    "next-reading": "Read {spot}: the high spot is then known within {after}, now {before}.",
    "next-reading-most": "Read {spot}: of all spots it tells most of the high spot, known within {before}.",
    "next-reading-after": "Then {spot}: within {after}.",
    "next-reading-again": "{spot} again",
    "line-may-move": "The floor under a box may stand more than {move} over the line's high spot: it does in "
    "{odds} of 100 floors that fit the readings. The high spot is at {point} in {point_odds} of 100.",
}
