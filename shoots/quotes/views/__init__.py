"""Pages of the rate card (`card`), of drafts (`editor`), of what was sent (`standing`), and the client's (`client`)."""
