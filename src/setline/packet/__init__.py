"""packet."""
