"""What a version freezes (`paper`), what differs in words (`words`), prices (`prices`), and pages (`standing`)."""
