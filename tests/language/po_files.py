"""Small `.po` files for tests."""

HEAD = 'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n\n'


def po(folder, name="some", **texts):
    """Write a `.po` file of plain messages into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    body = "".join(f'msgid "{text}"\nmsgstr "{said}"\n\n' for text, said in texts.items())
    (folder / f"{name}.po").write_text(HEAD + body, encoding="utf-8")
    return folder
