"""HTML to PDF, by WeasyPrint where it is installed."""

from saythesum.errors import CallerError


def pdf_of(html: str) -> bytes:
    """Tagged: headings, tables with their headers, pictures with their words. Raises CallerError."""
    try:
        from weasyprint import HTML
    except (ImportError, OSError) as error:  # OSError: its libraries of the system are missing
        raise CallerError(
            "A PDF needs the library weasyprint: install it with pip install 'saythesum[pdf]' (and Pango, on "
            "Debian libpango-1.0-0). The HTML is made all the same, and any browser prints it."
        ) from error
    made: bytes = HTML(string=html).write_pdf(pdf_variant="pdf/ua-1")
    return made
