"""A page as PDF, by WeasyPrint, which is an extra: it needs Pango, a library of the system."""

_MISSING = (
    "no PDF maker (WeasyPrint, or the Pango library it needs)",
    "one",
    "install it with pip install 'diagnose[pdf]' and Pango (on Debian libpango-1.0-0 and libpangoft2-1.0-0)",
)


class PdfMissingError(Exception):
    """There is nothing here that makes PDFs; `told` says what was found, what expected, and how to mend it."""

    told = _MISSING


def pdf(html: str) -> bytes:
    """Return an HTML page as PDF; nothing outside of it is fetched.

    Raises:
        PdfMissingError: WeasyPrint or one of its libraries is not installed.

    """
    try:
        from weasyprint import HTML  # noqa: PLC0415 - heavy, and not everyone has it
    except (ImportError, OSError) as error:
        raise PdfMissingError from error
    return bytes(HTML(string=html, url_fetcher=_nothing).write_pdf())


def _nothing(url: str) -> dict[str, str]:
    raise ValueError(f"a report has no outside parts, but asks for {url}")
