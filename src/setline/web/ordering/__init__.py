"""What is on order, on screen: its rows, its forms, and what a form writes."""
