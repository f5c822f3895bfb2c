"""A list of what was ordered, read from a spreadsheet or a pasted table: things to keep, faults by row."""
