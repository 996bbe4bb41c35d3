"""What is owed: invoices, credit notes and payments."""
