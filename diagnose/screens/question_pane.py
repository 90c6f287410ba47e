"""The question in hand: where it belongs, its text, the field for its answer, and how to look."""

from collections.abc import Mapping

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input, Label, OptionList

from diagnose.language import _, marked, ngettext
from diagnose.questionnaire import Questionnaire
from diagnose.questionnaire.units import System
from diagnose.report.words import with_house
from diagnose.rulebase.model import Question
from diagnose.screens.inputs import AnswerField, Asked, Draft, field_for

_EFFORT = {
    "think": marked("from memory"),
    "look": marked("by looking"),
    "touch": marked("by touching"),
    "unpot": marked("by lifting it out of its pot"),
    "wait": marked("by waiting and watching"),
}


class QuestionPane(VerticalScroll, can_focus=False):
    """One question; or, at the end, what the answers came to.

    Its texts are the same widgets for every question, since new ones cost more time than new words.
    """

    DEFAULT_CSS = """
    QuestionPane Label { width: 100%; max-width: 76; }
    QuestionPane .subject { color: $muted; }
    QuestionPane #question { text-style: bold; margin: 1 0; }
    QuestionPane .part { color: $muted; margin-top: 1; }
    QuestionPane #caution { color: $against; margin-top: 1; }
    QuestionPane AnswerField { max-width: 90; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._field: AnswerField | None = None
        self._drafts: dict[str, Draft] = {}

    @property
    def drafts(self) -> Mapping[str, Draft]:
        """What was typed but not entered, by question."""
        self._keep_draft()
        return dict(self._drafts)

    def compose(self) -> ComposeResult:
        """Lay the pane out, still empty."""
        for place, kind in (
            ("place", "subject"),
            ("skipped", "subject"),
            ("enough", "subject"),
            ("question", ""),
            ("caution", ""),
            ("how", "part"),
            ("why", "part"),
        ):
            yield _Text(id=place, classes=kind)

    def show(self, asked: Questionnaire, system: System, verdict: str) -> None:
        """Show the question in hand."""
        question = asked.current
        self._keep_draft()
        if self._field is not None:
            self._field.remove()
            self._field = None
        if question is None:
            self._end(verdict)
        else:
            self._ask(asked, question, system)
        self.scroll_home(animate=False)
        self.call_after_refresh(self._focus)

    def entered(self) -> None:
        """Drop what was typed: the question was answered in another way."""
        if self._field is not None:
            self._field.entered = True

    def tell_enough(self, enough: bool) -> None:
        """Say whether what is still open would hardly matter, without touching what is being typed."""
        self._say(
            "enough", _("What is still open would hardly move the ranking: F8 goes to it.") if enough else ""
        )

    def _ask(self, asked: Questionnaire, question: Question, system: System) -> None:
        base = asked.diagnosis.base
        self._say("place", _place(asked, question))
        self._say("skipped", "\n".join(_skipped(count, reason) for count, reason in asked.skipped_now))
        self.tell_enough(asked.enough)
        self._say("question", question.text)
        self._field = field_for(Asked(question, asked.case, base, system), self._drafts.get(question.id))
        self.mount(self._field, after="#question")
        cautions = [base.cautions[caution].text for caution in question.caution if caution in base.cautions]
        self._say("caution", "\n\n".join(_("Take care: {caution}").format(caution=one) for one in cautions))
        self._say("how", _part(_("How to look"), question.help))
        self._say("why", _part(_("Why it is asked"), question.why))

    def _end(self, verdict: str) -> None:
        self._say("place", _("All questions are done"))
        self._say("question", verdict)
        self._say(
            "how",
            _(
                "Press F8 for the reasons behind every rank, or F7 to go back to any question. "
                "The case is saved; you can come back to it when something has changed."
            ),
        )
        for place in ("skipped", "enough", "caution", "why"):
            self._say(place, "")

    def _keep_draft(self) -> None:
        """Remember what was typed into the field, if it was not entered."""
        if self._field is None:
            return
        question, draft = self._field.asked.question.id, self._field.typed()
        if draft is None:
            self._drafts.pop(question, None)
        else:
            self._drafts[question] = draft

    def _say(self, place: str, text: str | Content) -> None:
        self.query_one(f"#{place}", _Text).say(text)

    def _focus(self) -> None:
        for kind in (Input, OptionList):
            for field in self.query(kind):
                if field.display:
                    field.focus(scroll_visible=False)
                    return


class _Text(Label):
    """A text that is laid out again only if it changed, and takes no room while it is empty."""

    def __init__(self, *, id: str, classes: str) -> None:  # noqa: A002 - Textual's own word
        super().__init__(markup=False, id=id, classes=classes)
        self._said: str | Content = ""
        self.display = False

    def say(self, text: str | Content) -> None:
        """Change the text."""
        if text != self._said:
            self._said = text
            self.display = bool(text)
            self.update(text)


def _place(asked: Questionnaire, question: Question) -> str:
    """Return where a question belongs and how it is answered."""
    mine = [q for q in asked.applicable if q.subject == question.subject]
    base = asked.diagnosis.base
    subject, effort = base.subjects[question.subject].name, _(_EFFORT[question.effort])
    if question in mine:
        said = _("{subject}, question {number} of {count}, {effort}").format(
            subject=subject, number=mine.index(question) + 1, count=len(mine), effort=effort
        )
    else:
        said = _("{subject}, does not apply here, {effort}").format(subject=subject, effort=effort)
    return with_house(said, house=base.is_house("question", question.id))


def _skipped(count: int, reason: str) -> str:
    return ngettext(
        "Skipped {count} question: {reason}.", "Skipped {count} questions: {reason}.", count
    ).format(count=count, reason=reason)


def _part(title: str, text: str) -> Content:
    return Content.assemble((f"{title}  ", "$foreground"), text)
