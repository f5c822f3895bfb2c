"""floor."""
