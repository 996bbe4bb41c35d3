"""What is typed about light."""
