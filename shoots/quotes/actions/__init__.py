"""What happens to the card (`card`), to drafts (`drafts`), at sending (`sending`), at the answer (`answers`)."""
