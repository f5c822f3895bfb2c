"""stages."""
