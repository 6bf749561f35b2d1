"""Pages of the kinds of finding that other rooms report and no check looks for."""

READER_PAGES: dict[str, str] = {}
