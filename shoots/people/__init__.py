"""Clients and their contacts, crew and talent."""
