"""Sign-in, the first set-up of a studio, and invitations."""
