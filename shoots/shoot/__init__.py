"""The record that everything hangs on: parties, dates, holds and the facts that happened."""
