"""What fills the gaps under the boxes."""
