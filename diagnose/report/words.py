"""Numbers, causes and kinds put into words, the same everywhere."""

from collections.abc import Sequence

from diagnose.case import Case
from diagnose.diagnosis import Diagnosis
from diagnose.language import SOURCE, _, and_listed, date_said, marked, ngettext, numeral, pgettext, spoken
from diagnose.measures.measure import Assumption, percentage
from diagnose.rulebase.rulebase import RuleBase

_LIKELIHOOD = (
    # likelihood scale of Mastrandrea et al. 2010, Guidance note for lead authors on uncertainties (IPCC);
    # from memory
    (0.99, marked("virtually certain")),
    (0.90, marked("very likely")),
    (0.66, marked("likely")),
    (0.33, marked("about as likely as not")),
    (0.10, marked("unlikely")),
    (0.01, marked("very unlikely")),
    (0.00, marked("exceptionally unlikely")),
)

_EVENTS = {
    "brought_home": marked("brought home"),
    "moved": marked("moved"),
    "repotted": marked("repotted"),
    "medium_changed": marked("medium changed"),
    "fed": marked("fed"),
    "treated": marked("treated"),
    "heating_on": marked("heating on"),
    "other": marked("other"),
}

_WHICH = {"oldest": marked("oldest"), "middle": marked("middle"), "newest": marked("newest")}


def likelihood(probability: float) -> str:
    """Return the word for a probability."""
    return _(next(word for least, word in _LIKELIHOOD if probability >= least))


def percent(probability: float) -> str:
    """Return a probability as a whole percentage that never claims certainty."""
    if probability < 0.01:
        return "<1 %"
    if probability > 0.99:
        return ">99 %"
    return percentage(probability)


def decibans(value: float) -> str:
    """Return decibans with their sign: + speaks for the cause, - against it."""
    return f"{numeral(round(value, 2), '+g')} dB"


def event_said(kind: str) -> str:
    """Return the kind of a dated event in words."""
    return _(_EVENTS.get(kind, kind))


def which_said(which: str | None) -> str:
    """Return which leaves went, in words; nothing where it was not told."""
    return _(_WHICH[which]) if which else ""


def with_house(text: str, *, house: bool) -> str:
    """Return a text, marked where a house rule said it."""
    return _("{text} (house)").format(text=text) if house else text


def called(case: Case, base: RuleBase, unnamed: str) -> str:
    """Return what a case or its plant is called: without a name, by the kind it is judged as."""
    profile = base.plants.get(case.plant.profile or "")
    return case.title or case.plant.name or case.plant.kind or (profile.name if profile else unnamed)


def heading(diagnosis: Diagnosis) -> str:
    """Return what the case is called and its date."""
    name = called(diagnosis.case, diagnosis.base, _("Unnamed plant"))
    return _("{plant}, {date}").format(plant=name, date=date_said(diagnosis.case.date))


def verdict(diagnosis: Diagnosis) -> str:
    """Return in one or two sentences how far the ranking can be trusted."""
    ranking = diagnosis.ranking
    first = ranking.first
    said = {"likelihood": likelihood(first.probability), "percent": percent(first.probability)}
    if ranking.verdict == "too_little":
        return _("Too little is known to rank the causes: answer a few more questions.")
    if ranking.verdict == "none_likely":
        text = _("No cause is likely from what is known; the first, {cause}, is {likelihood} ({percent}).")
        return text.format(cause=cause_said(first.name), **said)
    if ranking.verdict == "close":
        others = ranking.close[:3]
        text = ngettext(
            "{first} comes first, but {others} is too close to call.",
            "{first} comes first, but {others} are too close to call.",
            len(ranking.close),
        )
        return text.format(first=first.name, others=causes_said([ranking.of(one).name for one in others]))
    return _("{cause} is {likelihood} ({percent}).").format(cause=first.name, **said)


def causes_said(names: Sequence[str]) -> str:
    """Return causes listed within a sentence."""
    return and_listed([cause_said(name) for name in names])


def cause_said(name: str) -> str:
    """Return a cause's name within a sentence; some languages set it in quotes."""
    return pgettext("a cause in a sentence", "{cause}").format(cause=lower_first(name))


def lower_first(text: str) -> str:
    """Return text as it stands inside a sentence: English begins it small; other languages have nouns with capitals."""
    return text[:1].lower() + text[1:] if spoken() == SOURCE else text


def assumed_said(base: RuleBase, assumed: Assumption) -> str:
    """Return in a sentence what was assumed for want of an answer, a question by its text."""
    question = base.questions.get(assumed.name)
    if question:
        text = _("Assumed: {question} {value}; {effect}.")
        return text.format(question=question.text, value=assumed.value, effect=assumed.effect)
    text = _("Assumed: {name}: {value}; {effect}.")
    return text.format(name=assumed.name, value=assumed.value, effect=assumed.effect)
