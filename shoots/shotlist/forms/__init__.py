"""What is typed into one shot (`shots`), into many (`many`), into what is in them (`parts`), as tables (`tables`)."""
