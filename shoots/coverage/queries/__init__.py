"""What was promised (`papers`), the page of it (`page`), and whether a day fits (`dayfit`)."""
