"""What pages and documents need of `lighting`: rows as the core's shapes, pages, and drawings to scale."""
