"""The pure rules of `shoot`: codes, holds, clashes of dates, ages. No Django, no clock, no files."""
