"""SVG elements as text: escaped, rounded, well-formed."""

from collections.abc import Iterable, Sequence
from xml.sax.saxutils import escape, quoteattr

Point = tuple[float, float]

INK, SOFT, FAINT, FOR, AGAINST, BAND, PAPER = (
    "#1c2422", "#56615d", "#e3e8e5", "#1d6b59", "#94481f", "#dbe8e3", "#ffffff",
)  # fmt: skip
_FONT = "system-ui, 'Segoe UI', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif"


def picture(width: float, height: float, label: str, parts: Iterable[str], name: str) -> str:
    """Return a whole picture; `label` is what it shows, in words."""
    size = f'viewBox="0 0 {_number(width)} {_number(height)}" width="{_number(width)}" height="{_number(height)}"'
    start = f'<svg xmlns="http://www.w3.org/2000/svg" class="{name}" {size} role="img" aria-label={quoteattr(label)}>'
    return "".join((start, f"<title>{escape(label)}</title>", *parts, "</svg>"))


def line(start: Point, end: Point, kind: str = "grid", width: float = 1, dashes: str = "") -> str:
    """Return a straight line; `kind` is grid, axis, for or against."""
    colour = {"grid": FAINT, "axis": SOFT, "for": FOR, "against": AGAINST}[kind]
    places = zip(("x1", "y1", "x2", "y2"), (*start, *end), strict=True)
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    where = " ".join(f'{name}="{_number(value)}"' for name, value in places)
    return f'<line class="s-{kind}" {where} stroke="{colour}" stroke-width="{_number(width)}"{dashed}/>'


def rectangle(corner: Point, width: float, height: float, kind: str) -> str:
    """Return a rectangle; `kind` is for (filled), against (hollow) or band (a light ground)."""
    looks = {
        "for": f'fill="{FOR}" stroke="{FOR}"',
        "against": f'fill="{PAPER}" stroke="{AGAINST}" stroke-width="1.5"',
        "band": f'fill="{BAND}"',
    }[kind]
    size = f'width="{_number(max(0, width))}" height="{_number(max(0, height))}"'
    return f'<rect class="f-{kind}" x="{_number(corner[0])}" y="{_number(corner[1])}" {size} {looks}/>'


def dot(centre: Point, radius: float = 3.5, kind: str = "for") -> str:
    """Return a dot, filled (for) or hollow (against)."""
    looks = (
        f'fill="{FOR}" stroke="{FOR}"'
        if kind == "for"
        else f'fill="{PAPER}" stroke="{AGAINST}" stroke-width="1.5"'
    )
    where = f'cx="{_number(centre[0])}" cy="{_number(centre[1])}" r="{_number(radius)}"'
    return f'<circle class="f-{kind}" {where} {looks}/>'


def path(points: Sequence[Point]) -> str:
    """Return a line through points."""
    return f'<polyline class="s-for open" points="{_points(points)}" fill="none" stroke="{FOR}" stroke-width="2"/>'


def area(points: Sequence[Point]) -> str:
    """Return a filled outline on light ground."""
    return f'<polygon class="f-band" points="{_points(points)}" fill="{BAND}"/>'


def text(at: Point, words: str, anchor: str = "start", *, soft: bool = False, bold: bool = False) -> str:
    """Return words set at a point; `anchor` is start, middle or end."""
    name, colour = ("t-soft", SOFT) if soft else ("t-ink", INK)
    look = f'font-family="{_FONT}" font-size="13" fill="{colour}"' + (' font-weight="600"' if bold else "")
    where = f'x="{_number(at[0])}" y="{_number(at[1])}" text-anchor="{anchor}"'
    return f'<text class="{name}" {where} {look}>{escape(words)}</text>'


def ticks(highest: float, at_most: int = 5) -> list[float]:
    """Return round steps from 0 up to at least `highest`, no more than `at_most` and the zero."""
    for power in range(-3, 7):
        for step in (1, 2, 2.5, 5):
            width = step * 10.0**power
            count = -(-highest // width)
            if count <= at_most:
                return [width * number for number in range(int(max(1, count)) + 1)]
    return [0.0, highest]


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _number(value: float) -> str:
    return f"{round(value, 2):g}"
