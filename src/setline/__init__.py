"""Setline: readings in, marks out."""
