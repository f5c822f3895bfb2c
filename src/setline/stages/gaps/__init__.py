"""gaps."""
