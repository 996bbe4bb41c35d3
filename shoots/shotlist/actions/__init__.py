"""What happens to planned pictures (`shots`), and to what is in them (`parts`)."""
