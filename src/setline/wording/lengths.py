"""Sentences about lengths as they are typed."""

SENTENCES: dict[str, str] = {
    "length-unknown": "{given} is no length on this tape.",
    "length-empty": "An empty text",
    "length-is-text": "A length is a text of at most {most} signs or a whole number.",
    "length-is-no-float": "{given} is a decimal number, which a file does not hold exactly: "
    "write a text in quotes, {readings}.",
    "length-below-zero": "{given} is below 0: a reading is a plain distance, 0 or more.",
    "length-too-long": "{given} is longer than {most}, the longest that is read.",
    "length-off-inch-tape": "{given} lies between two lines of the tape: {readings}.",
    "length-off-metric-tape": "{given} is finer than 0.1 mm: {readings}.",
    "length-parts": "{given} counts in parts that no tape shows: {readings}.",
    "length-which-unit": "{given} could be millimetres ({as_inches}) or inches ({as_feet}): "
    "write {readings}.",
    "length-which": "{given} can be read in more than one way: {readings}.",
    "length-two-numbers": "{given} stands as two numbers; as one it is {readings}.",
    "length-stroke": "{given} has no stroke in its fraction: {readings}.",
    "length-improper": "The fraction of {given} is a whole inch or more: {readings}.",
    "length-comma": "{given} has a comma, which an inch tape does not: {readings}.",
    "length-thousands": "{given} could be thousands or a decimal: {readings}.",
    "length-fraction-on-metric": "{given} is a fraction, which a metric tape does not show: {readings}.",
    "length-inches-over-a-foot": "{given} has twelve inches or more after the feet: {readings}.",
}
