"""The studio's pages (`versions`) and the client's (`client`)."""
