"""What the client said yes to: the brief with its shot list, frozen in versions, and what changed since."""
