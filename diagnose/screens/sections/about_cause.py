"""What the chosen cause is, how it looks, and the check that settles it."""

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from diagnose.questionnaire import Questionnaire
from diagnose.report.text import origin_said_in
from diagnose.report.words import likelihood, percent
from diagnose.rulebase.resolve import listed
from diagnose.screens.sections.section import Section


class AboutCause(Section):
    """The cause's own page from the rules."""

    DEFAULT_CSS = "AboutCause Static { max-width: 78; padding: 0 1; }"

    def compose(self) -> ComposeResult:
        """Lay the page out."""
        with VerticalScroll():
            yield Static(id="about")

    def show(self, asked: Questionnaire, cause: str) -> None:
        """Show a cause."""
        base = asked.diagnosis.base
        entry, ranked = base.causes[cause], asked.diagnosis.ranking.of(cause)
        likely = f"{likelihood(ranked.probability)} ({percent(ranked.probability)})"
        said = f"{likely}, rank {ranked.rank} of {len(base.causes)}"
        parts = [
            Content.assemble((entry.name, "bold"), (f"\n{said}", "$muted")),
            *(
                Content.assemble((f"{title}\n", "$muted"), text)
                for title, text in (
                    ("What it is", entry.what),
                    ("How it looks", entry.looks),
                    ("What settles it", entry.settles),
                )
            ),
            Content.styled(
                "From " + "; ".join(origin_said_in(base, one) for one in listed(entry.origin)), "$muted"
            ),
        ]
        self.query_one("#about", Static).update(Content("\n\n").join(parts))
