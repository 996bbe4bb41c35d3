"""Finished pictures, tied to their shots and handed to the client."""
