"""Key path -> line, checked against documents built by a writer that knows where it put each key."""

import tomli
import tomli_w
from hypothesis import given
from hypothesis import strategies as st

from diagnose.tomlfiles.lines import line_index, line_of

KEYS = st.text(st.characters(codec="utf-8", exclude_categories=["C"]), min_size=1, max_size=6)
SCALARS = st.one_of(st.integers(-99, 99), st.booleans(), st.text("ab[]{}.# ", max_size=5))
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3),
    max_leaves=12,
)


def paths(value, above=()):
    """Every key path of plain data."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in items:
        yield (*above, key)
        yield from paths(inner, (*above, key))


@given(st.dictionaries(KEYS, VALUES, max_size=4))
def test_every_key_of_a_document_has_a_line_on_which_it_stands(data):
    text = tomli_w.dumps(data)
    index = line_index(text)
    lines = text.splitlines()
    for path in paths(tomli.loads(text)):
        assert path in index
        assert 1 <= index[path] <= max(1, len(lines))
        if isinstance(path[-1], str) and path[-1].isalnum() and path[-1].isascii():
            assert path[-1] in lines[index[path] - 1]


def test_tables_of_one_name_are_told_apart():
    text = "[[a]]\nx = 1\n[[a]]\nx = 2\n[a.b]\ny.z = 3\n[[a.c]]\nq = [\n  1,\n  # note\n  { w = 2 },\n]\n"
    index = line_index(text)
    assert index["a", 0, "x"] == 2
    assert index["a", 1, "x"] == 4
    assert index["a", 1, "b", "y", "z"] == 6
    assert index["a", 1, "c", 0, "q", 1, "w"] == 11


def test_a_missing_key_is_told_at_the_table_it_is_missing_from():
    index = line_index("[[a]]\nx = 1\n\n[[a]]\ny = 1\n")
    assert line_of(index, ("a", 1, "x")) == 4
    assert line_of(index, ("nowhere",)) is None
