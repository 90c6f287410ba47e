"""Where each key of a TOML text stands. Used only once something is wrong: loading the parser costs 30 ms."""

import functools
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

import tomli

if TYPE_CHECKING:
    from tree_sitter import Node

KeyPath = tuple[str | int, ...]


@functools.lru_cache(maxsize=16)  # one text's faults come one after another
def line_index(text: str) -> Mapping[KeyPath, int]:
    """Return key path -> line (from 1) for every key and array element of a well-formed TOML text."""
    import tree_sitter  # noqa: PLC0415
    import tree_sitter_toml  # noqa: PLC0415

    parser = tree_sitter.Parser(tree_sitter.Language(tree_sitter_toml.language()))
    root = parser.parse(text.encode()).root_node
    lines: dict[KeyPath, int] = {}
    counts: dict[KeyPath, int] = {}  # how many [[tables]] of a name have been seen
    for node in root.children:
        if node.type == "pair":
            lines.update(_pair(node, ()))
        elif node.type in ("table", "table_array_element"):
            base = _header(node, counts)
            for end in range(1, len(base) + 1):
                lines.setdefault(base[:end], _line(node))
            for child in node.children:
                if child.type == "pair":
                    lines.update(_pair(child, base))
    return lines


def line_of(lines: Mapping[KeyPath, int], path: KeyPath) -> int | None:
    """Return the line of the deepest part of `path` that stands in the text, None if no part does."""
    return next((lines[path[:end]] for end in range(len(path), 0, -1) if path[:end] in lines), None)


def _header(node: "Node", counts: dict[KeyPath, int]) -> KeyPath:
    """Return the full path of a [table] or [[table]] header, with the indexes of the [[tables]] it lies in."""
    keys = _keys(node.named_children[0])
    path: KeyPath = ()
    for position, key in enumerate(keys, start=1):
        path = (*path, key)
        if position == len(keys) and node.type == "table_array_element":
            counts[path] = counts.get(path, 0) + 1
        if path in counts:
            path = (*path, counts[path] - 1)
    return path


def _pair(node: "Node", base: KeyPath) -> Iterator[tuple[KeyPath, int]]:
    path = base
    for key in _keys(node.named_children[0]):
        path = (*path, key)
        yield path, _line(node)
    yield from _inside(node.named_children[-1], path)


def _inside(value: "Node", path: KeyPath) -> Iterator[tuple[KeyPath, int]]:
    if value.type == "inline_table":
        for child in value.named_children:
            if child.type == "pair":
                yield from _pair(child, path)
    elif value.type == "array":
        elements = [child for child in value.named_children if child.type != "comment"]
        for index, child in enumerate(elements):
            yield (*path, index), _line(child)
            yield from _inside(child, (*path, index))


def _keys(node: "Node") -> list[str]:
    if node.type == "dotted_key":
        return [key for child in node.named_children for key in _keys(child)]
    text = (node.text or b"").decode()
    if node.type == "bare_key":
        return [text]
    return [next(iter(tomli.loads(f"{text} = 0")))]  # the TOML reader itself unquotes the key


def _line(node: "Node") -> int:
    return node.start_point[0] + 1
