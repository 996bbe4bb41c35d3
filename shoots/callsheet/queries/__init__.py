"""What call sheets are made of, what they still lack, and who has them."""
