"""Who works here: users, studios, members and the roles that decide what a page shows."""
