"""The job: what was read, ordered, agreed and done. No computing beyond validation and the signs of readings."""
