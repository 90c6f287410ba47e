"""The question in hand: where it belongs, its text, the field for its answer, and how to look."""

from collections.abc import Mapping

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
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

    class Shown(Message):
        """A question stands on the screen and takes keys."""

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
        if question is None:
            self._field, texts = None, _end(verdict)
        else:
            told = Asked(question, asked.case, asked.diagnosis.base, system)
            self._field, texts = field_for(told, self._drafts.get(question.id)), _texts(asked, question)
        self.call_next(self._put, self._field, texts)

    def entered(self) -> None:
        """Drop what was typed: the question was answered in another way."""
        if self._field is not None:
            self._field.entered = True

    def tell_enough(self, enough: bool) -> None:
        """Say whether what is still open would hardly matter, without touching what is being typed."""
        self.query_one("#enough", _Text).say(_enough(enough))

    async def _put(self, field: AnswerField | None, texts: Mapping[str, str | Content]) -> None:
        """Put a question on the screen in one go: its words never stand above another's field."""
        if field is not self._field:  # another came since
            return
        with self.app.batch_update():
            for place in self.query(_Text):
                place.say(texts.get(place.id or "", ""))
            await self.query(AnswerField).remove()
            if field is not None:
                await self.mount(field, after="#question")
            self.scroll_home(animate=False)
        self.call_after_refresh(self._ready)

    def _keep_draft(self) -> None:
        """Remember what was typed into the field, if it was not entered."""
        if self._field is None:
            return
        question, draft = self._field.asked.question.id, self._field.typed()
        if draft is None:
            self._drafts.pop(question, None)
        else:
            self._drafts[question] = draft

    def _ready(self) -> None:
        """Take keys only now that the question stands there."""
        fields = (*self.query(Input), *self.query(OptionList))
        shown = [field for field in fields if field.display]
        if shown:
            shown[0].focus(scroll_visible=False)
        self.post_message(self.Shown())


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


def _texts(asked: Questionnaire, question: Question) -> dict[str, str | Content]:
    """Return what is said about a question, by place."""
    cautions = asked.diagnosis.base.cautions
    take_care = [
        _("Take care: {caution}").format(caution=cautions[one].text)
        for one in question.caution
        if one in cautions
    ]
    return {
        "place": _place(asked, question),
        "skipped": "\n".join(_skipped(count, reason) for count, reason in asked.skipped_now),
        "enough": _enough(asked.enough) or _few(asked),
        "question": question.text,
        "caution": "\n\n".join(take_care),
        "how": _part(_("How to look"), question.help),
        "why": _part(_("Why it is asked"), question.why),
    }


def _end(verdict: str) -> dict[str, str | Content]:
    """Return what is said when all questions are done."""
    how = _(
        "Press F8 for the reasons behind every rank, or F7 to go back to any question. "
        "The case is saved; you can come back to it when something has changed."
    )
    return {"place": _("All questions are done"), "question": verdict, "how": how}


def _enough(enough: bool) -> str:
    return _("What is still open would hardly move the ranking: F8 goes to it.") if enough else ""


def _few(asked: Questionnaire) -> str:
    """Return what a grower should know before the first answer."""
    if asked.telling or any(one.done for one in asked.progress()):
        return ""
    return _(
        "You need not answer them all: F8 shows the ranking at any time, and F7, then O, asks the most telling "
        "questions first."
    )


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
