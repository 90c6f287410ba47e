"""Every message of the program and every text of the rules is translated, whole, in every language there is."""

import ast
import string
from collections import defaultdict

import pytest
from babel.messages.pofile import read_po

from diagnose import locations
from diagnose.language import SOURCE, languages
from diagnose.rulebase.load import read_folder
from diagnose.rulebase.translate import language_folders, texts_of
from messages import KEYWORDS, PROGRAM, domains, messages

FOREIGN = [language for language in languages() if language != SOURCE]
assert FOREIGN


def catalogue(file):
    with file.open("rb") as text:
        return read_po(text, locale=file.parent.name, abort_invalid=True)


def program_files(language):
    return sorted((PROGRAM / "language" / language).glob("*.po"))


def rule_files(language):
    [folder] = language_folders([locations.built_in_rules()], language)
    return sorted(folder.glob("*.po"))


def translations(files):
    """Every message of some files with its file, the headings left out."""
    return [(file, message) for file in files for message in catalogue(file) if message.id]


def forms(text):
    return tuple(text) if isinstance(text, tuple | list) else (text,)


def gaps(text):
    """The names in braces, read by Python itself; None for a text that is not filled in (a stray brace)."""
    try:
        return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}
    except ValueError:
        return None


def blanks(text):
    """The blanks and breaks of lines before and after a text."""
    return text[: len(text) - len(text.lstrip())], text[len(text.rstrip()) :]


EVERY_FILE = [
    pytest.param(file, id=f"{kind}-{file.parent.name}-{file.stem}")
    for kind, files in (("program", program_files), ("rules", rule_files))
    for language in FOREIGN
    for file in files(language)
]


@pytest.fixture(scope="module")
def extracted():
    """Name of a `.po` file -> the messages that its sources hold now."""
    return {name: {(m.text, m.context) for m in messages(files)} for name, files in domains().items()}


def test_no_message_stands_inside_an_f_string():
    """The extractor looks into f-strings on Python 3.12 and later only."""
    hidden = [
        f"{file.relative_to(PROGRAM)}:{call.lineno}"
        for file in PROGRAM.rglob("*.py")
        for outer in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(outer, ast.JoinedStr)
        for call in ast.walk(outer)
        if isinstance(call, ast.Call)
        and getattr(call.func, "id", "") in KEYWORDS
        and isinstance(call.args[0], ast.Constant)
    ]
    assert hidden == []


@pytest.mark.parametrize("language", FOREIGN)
def test_the_files_hold_what_the_program_says_and_nothing_else(extracted, language):
    wanted = {name: found for name, found in extracted.items() if found}
    held = defaultdict(set)
    for file, message in translations(program_files(language)):
        text = tuple(message.id) if isinstance(message.id, list | tuple) else message.id
        held[file.stem].add((text, message.context))
    odd = {name: wanted.get(name, set()) ^ held.get(name, set()) for name in wanted.keys() | held.keys()}
    assert {name: sorted(map(str, texts)) for name, texts in odd.items() if texts} == {}


@pytest.mark.parametrize("language", FOREIGN)
def test_the_files_hold_what_the_rules_say_and_nothing_else(language):
    files, problems = read_folder(locations.built_in_rules())
    assert not problems
    wanted = {text for file in files for text, _ in texts_of(file.content) if text}
    held = {message.id for _, message in translations(rule_files(language))}
    assert sorted(wanted ^ held) == []


@pytest.mark.parametrize("file", EVERY_FILE)
def test_every_message_is_translated_for_certain(file):
    held = catalogue(file)
    lacking = [message.id for message in held if message.id and not all(forms(message.string))]
    assert lacking == []
    assert [message.id for message in held if message.id and message.fuzzy] == []
    assert not held.obsolete


@pytest.mark.parametrize("file", EVERY_FILE)
def test_a_count_has_every_form_of_its_language(file):
    held = catalogue(file)
    wrong = [
        m.id for m in held if isinstance(m.id, list | tuple) and len(forms(m.string)) != held.num_plurals
    ]
    assert wrong == []


@pytest.mark.parametrize("file", EVERY_FILE)
def test_translations_have_the_same_gaps_blanks_and_markup(file):
    wrong = []
    for _, message in translations([file]):
        source = forms(message.id)
        like = source[-1]
        may_lack = len(source) - 1  # a form for one may spell its count out
        for said in filter(None, forms(message.string)):  # empty ones are told by the test of completeness
            ours, theirs = gaps(said), gaps(like)
            if ours != theirs and (None in (ours, theirs) or ours - theirs or len(theirs - ours) > may_lack):
                wrong.append(("gaps", like, said))
            if blanks(said) != blanks(like):
                wrong.append(("blanks at the ends", like, said))
            wrong += [(m, like, said) for m in ("[b]", "[/b]", "`") if like.count(m) != said.count(m)]
    assert wrong == []


@pytest.mark.parametrize("of", [program_files, rule_files])
@pytest.mark.parametrize("language", FOREIGN)
def test_a_message_is_said_in_one_way(of, language):
    """All files become one catalogue: two ways to say one message need a context each."""
    said = defaultdict(set)
    for _, message in translations(of(language)):
        if all(forms(message.string)):
            said[str(message.id), message.context].add(forms(message.string))
    assert {key: ways for key, ways in said.items() if len(ways) > 1} == {}
