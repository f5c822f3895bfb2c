"""Sentences about the steel tape itself."""

SENTENCES: dict[str, str] = {
    "the-tape": "tape",
    "tape-class": "A class {tape} tape may be {off} off over {length}, and another one as much the other "
    "way: read the walls and the boxes with one tape.",
    "tape-heat-small": "At {temperature} a steel tape is off by less than {off} over {length}: leave it.",
    "tape-reads-short": "At {temperature} a steel tape reads {off} short over {length}: "
    "let it come to the room's warmth and read the long walls again, or add that much.",
    "tape-reads-long": "At {temperature} a steel tape reads {off} long over {length}: "
    "let it come to the room's warmth and read the long walls again, or take that much off.",
}
