"""What can't be done, told in her words; the page shows it, and no traceback ever reaches her."""


class Told(Exception):
    """status: the HTTP status; what: a short fixed id for programs; words: for her; more: further values of the answer."""

    def __init__(self, status: int, what: str, words: str, **more):
        super().__init__(words)
        self.status, self.what, self.words, self.more = status, what, words, more

    def as_dict(self) -> dict:
        return {"error": self.words, "what": self.what, **self.more}
