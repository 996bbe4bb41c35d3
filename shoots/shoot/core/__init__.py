"""The pure rules of `shoot`: codes, holds, clashes of dates. No Django, no clock, no files."""
