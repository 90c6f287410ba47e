"""Records -> pages: plain text, JSON, HTML. Pure: a record in, text out."""
