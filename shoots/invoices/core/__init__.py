"""The pure rules of `invoices`: no Django, no clock, no files."""
