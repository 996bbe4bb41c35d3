"""What was promised, by the call, the brief, the quote and the licence, against the shots and the day."""
