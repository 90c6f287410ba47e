"""The part of `diagnose rules new` that makes a question of the grower's own."""

import re

from diagnose.command.rules.prompts import AgainError, ask, pick, sentence
from diagnose.language import _, marked, quoted
from diagnose.rulebase.draft import NewQuestion
from diagnose.rulebase.rulebase import RuleBase
from diagnose.rulebase.vocabulary import YES_NO, Term

_KINDS = {
    "yes_no": marked("yes or no"),
    "choice": marked("one of some answers"),
    "number": marked("a number"),
}


def new_question(base: RuleBase) -> NewQuestion:
    """Ask for a new question."""
    text = ask(_("The question, as it is asked:"), _question_text)
    taken = base.questions.keys() | {name.partition(".")[0] for name in base.vocabulary}
    default = suggested(text, taken)
    question_id = new_id(_("A short name for it (Enter: {name}):").format(name=default), default, taken)
    kinds = {kind: _(said) for kind, said in _KINDS.items()}
    kind = ask(_("What is the answer? yes_no, choice or number:"), pick(_("kinds of answer"), kinds))
    choices: dict[str, str] = {}
    unit, least, most = "", 0.0, 0.0
    if kind == "choice":
        choices = ask(_("The answers, in small letters, parted by commas:"), _choices)
    elif kind == "number":
        unit = ask(_("Its unit, such as °C or days:"), sentence(1, 20))
        least, most = ask(_("The least and the most it can be, such as 0 100:"), _bounds)
    subjects = {subject.id: subject.name for subject in base.subjects.values()}
    subject = ask(_("Under which heading is it asked? '?' lists them:"), pick(_("headings"), subjects))
    how = ask(_("How does one look? One or two sentences:"), sentence())
    why = ask(_("Why is it asked? One sentence:"), sentence())
    return NewQuestion(question_id, subject, text, how, why, choices, unit, least, most)


def term_of(question: NewQuestion) -> Term:
    """Return the fact that the question's answer will be."""
    words = {} if question.unit else question.choices or {word: _(said) for word, said in YES_NO.items()}
    return Term(
        question.id, "question", question.text, question.unit, words, question.least or 0, question.most or 0
    )


def new_id(prompt: str, default: str, taken: "set[str] | frozenset[str]") -> str:
    """Ask for an id that is not taken; an empty line takes the default."""

    def read(line: str) -> str:
        chosen = line or default
        if not re.fullmatch(r"[a-z][a-z0-9_]{0,79}", chosen):
            raise AgainError(_("Lower-case letters, digits and _, beginning with a letter."))
        if chosen in taken:
            raise AgainError(_("{name} is taken: choose another name.").format(name=quoted(chosen)))
        return chosen

    return ask(prompt, read)


def suggested(text: str, taken: "set[str] | frozenset[str]") -> str:
    """Return an id made of a text's first words that is not taken."""
    words = re.findall(r"[a-z0-9]+", text.lower())[:5]
    start = "_".join(words)[:60] if words and words[0][0].isalpha() else "my_" + "_".join(words)[:60]
    return next(name for n in range(1, 10_000) if (name := start if n == 1 else f"{start}_{n}") not in taken)


def _question_text(line: str) -> str:
    if not line.endswith("?") or len(line) < 5:
        raise AgainError(_("A question that ends with a question mark."))
    return sentence()(line)


def _choices(line: str) -> dict[str, str]:
    labels = [label.strip() for label in line.split(",") if label.strip()]
    ids = {suggested(label, frozenset()): label for label in labels}
    if len(ids) < 2 or len(ids) < len(labels):
        raise AgainError(_("At least two answers, each different, such as: pale, dark green, blotched."))
    return ids


def _bounds(line: str) -> tuple[float, float]:
    try:
        least, most = (float(number) for number in line.replace(",", " ").split())
    except ValueError:
        raise AgainError(_("Two numbers, such as 0 100.")) from None
    if not -1e9 <= least < most <= 1e9:
        raise AgainError(_("The least first, then the most."))
    return least, most
