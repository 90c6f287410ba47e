"""Rule-base entries as pages: made once, then written as plain text, HTML or Markdown."""
