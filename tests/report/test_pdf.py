"""A page as PDF, where something makes PDFs; else one sentence that says how to get it."""

import sys

import pytest

from diagnose import locations
from diagnose.casefile import read_case
from diagnose.report.pdf import PdfMissingError, _nothing, pdf
from diagnose.report.render import html
from needed import absent


@pytest.fixture
def weasyprint():
    try:
        import weasyprint
    except OSError as error:  # without Pango it cannot be imported
        absent("pdf", f"Pango, with which pages become PDF, is not installed ({error})")
    return weasyprint


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_a_page_becomes_a_pdf_of_its_sheet(paged, weasyprint, paper, size):
    text = html(paged(read_case(locations.demo_cases() / "dim_and_waterlogged.toml")[0]), paper=paper)
    pages = weasyprint.HTML(string=text).render().pages
    assert len(pages) > 2
    assert {(round(page.width * 0.75), round(page.height * 0.75)) for page in pages} == {size}
    assert pdf(text).startswith(b"%PDF-")


def test_nothing_outside_is_fetched():
    with pytest.raises(ValueError, match="no outside parts"):
        _nothing("https://example.org/x.png")


def test_without_a_pdf_maker_a_sentence_says_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(PdfMissingError) as caught:
        pdf("<p>x</p>")
    assert "diagnose[pdf]" in " ".join(caught.value.told)
