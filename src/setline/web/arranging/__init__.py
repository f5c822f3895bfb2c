"""Arranging the boxes along a wall: what the run editor shows, and what each press writes."""
