"""What the pages of today and of a shoot need: where it stands (`road`), all of it (`overview`), today (`home`)."""
