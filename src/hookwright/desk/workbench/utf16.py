"""Offsets as a browser counts them: letters beyond the first 65,536 (emoji) are two there and one here."""

from bisect import bisect_left


class Utf16:
    """Turns offsets into `text` into those of a browser, and back."""

    def __init__(self, text: str):
        self._wide = [] if text.isascii() else [at for at, letter in enumerate(text) if letter > "\uffff"]

    @property
    def same(self) -> bool:
        """Whether all offsets are the same in both."""
        return not self._wide

    def there(self, offset: int) -> int:
        """The browser's offset.

        >>> Utf16("a\U0001F9F6b").there(2)
        3
        """
        return offset + bisect_left(self._wide, offset) if self._wide else offset

    def here(self, offset: int) -> int:
        """The offset here of a browser's.

        >>> Utf16("a\U0001F9F6b").here(3)
        2
        """
        low = offset
        for index, at in enumerate(self._wide):
            if at + index >= offset:
                break
            low = offset - index - 1
        return max(0, low)
