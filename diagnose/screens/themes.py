"""Our colours: a dark and a light theme in neutral tones, and one that uses the terminal's own two colours.

`muted` is for what accompanies, `line` for rules between parts, `selected` behind the row that is chosen,
`for` and `against` beside words that say the same. Contrast is tested against WCAG 2.2, 1.4.3 (4.5 to 1).
"""

from textual.theme import Theme

COLOURS = ("dark", "light", "plain")


def _theme(name: str, roles: dict[str, str], *, dark: bool) -> Theme:
    own = {key: roles[key] for key in ("muted", "line", "selected", "for", "against")}
    chrome = {
        "footer-background": roles["background"],
        "footer-foreground": roles["muted"],
        "footer-description-foreground": roles["muted"],
        "footer-key-foreground": roles["accent"],
        "block-cursor-foreground": roles["foreground"],
        "block-cursor-background": roles["selected"],
        "block-cursor-text-style": "bold",
        "block-cursor-blurred-foreground": roles["foreground"],
        "block-cursor-blurred-background": roles["background"],
        "block-cursor-blurred-text-style": "bold",
        "block-hover-background": roles["selected"],
        "border": roles["accent"],
        "border-blurred": roles["line"],
        "input-cursor-background": roles["foreground"],
        "input-cursor-foreground": roles["background"],
        "input-selection-background": roles["selected"],
        "input-selection-foreground": roles["foreground"],
        "scrollbar": roles["line"],
        "scrollbar-hover": roles["muted"],
        "scrollbar-active": roles["accent"],
        "scrollbar-background": roles["background"],
        "scrollbar-background-hover": roles["background"],
        "scrollbar-background-active": roles["background"],
        "text-muted": roles["muted"],
        "text-disabled": roles["muted"],
    }
    return Theme(
        name=name,
        primary=roles["accent"],
        secondary=roles["muted"],
        accent=roles["accent"],
        foreground=roles["foreground"],
        background=roles["background"],
        surface=roles["background"],
        panel=roles["background"],
        boost=roles["background"],
        warning=roles["against"],
        error=roles["against"],
        success=roles["for"],
        dark=dark,
        text_alpha=1.0,
        variables=own
        | chrome
        | {"ansi-background": roles["background"], "ansi-foreground": roles["foreground"]},
        ansi=roles["background"] == "ansi_default",
    )


_ROLES = ("foreground", "background", "accent", "muted", "line", "selected", "for", "against")

DARK = _theme(
    "dark",
    {
        "foreground": "#e3e1da",
        "background": "#181a19",
        "accent": "#a3c585",
        "muted": "#a09e95",
        "line": "#4a4d49",
        "selected": "#2e332d",
        "for": "#a3c585",
        "against": "#e0a873",
    },
    dark=True,
)
LIGHT = _theme(
    "light",
    {
        "foreground": "#22241f",
        "background": "#faf8f2",
        "accent": "#3c6423",
        "muted": "#5e5d55",
        "line": "#c4c1b6",
        "selected": "#e6e5d6",
        "for": "#3c6423",
        "against": "#8a4607",
    },
    dark=False,
)
PLAIN = _theme("plain", dict.fromkeys(_ROLES, "ansi_default"), dark=True)

THEMES = (DARK, LIGHT, PLAIN)
