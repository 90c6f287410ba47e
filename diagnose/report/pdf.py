"""A page as PDF, by WeasyPrint, which is an extra: it needs Pango, a library of the system."""

from diagnose.language import _, pgettext


class PdfMissingError(Exception):
    """There is nothing here that makes PDFs."""

    @property
    def told(self) -> tuple[str, str, str]:
        """What was found, what was expected, and how to mend it."""
        return (
            _("no PDF maker (WeasyPrint, or the Pango library it needs)"),
            pgettext("a PDF maker is expected", "one"),
            _("install it with {command} and Pango (on Debian libpango-1.0-0 and libpangoft2-1.0-0)").format(
                command="pip install 'diagnose[pdf]'"
            ),
        )


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
