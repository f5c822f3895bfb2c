"""The job: what was read, ordered, agreed and done. It computes no more than the signs of readings."""
