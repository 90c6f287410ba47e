"""What the chosen cause is, how it looks, and the check that settles it."""

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from diagnose.language import _
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
        said = _("{likelihood} ({percent}), rank {rank} of {count}").format(
            likelihood=likelihood(ranked.probability),
            percent=percent(ranked.probability),
            rank=ranked.rank,
            count=len(base.causes),
        )
        origins = "; ".join(origin_said_in(base, one) for one in listed(entry.origin))
        parts = [
            Content.assemble((entry.name, "bold"), (f"\n{said}", "$muted")),
            *(
                Content.assemble((f"{title}\n", "$muted"), text)
                for title, text in (
                    (_("What it is"), entry.what),
                    (_("How it looks"), entry.looks),
                    (_("What settles it"), entry.settles),
                )
            ),
            Content.styled(_("From {sources}").format(sources=origins), "$muted"),
        ]
        self.query_one("#about", Static).update(Content("\n\n").join(parts))
