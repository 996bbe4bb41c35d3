"""What pages and documents need of `rights`: terms, words, licences."""
