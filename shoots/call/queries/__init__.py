"""What the pages of calls show: drafts beside their lines, questions still open, and both in words."""
