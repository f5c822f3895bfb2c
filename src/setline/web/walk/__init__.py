"""The walk of readings: what to read next and where, what is asked about it, and keeping it."""
