"""What pages and call sheets read of a day's plan."""
