"""The head's YAML as a tree of values with their places; bounded, and without anything YAML can do beyond data.

Anchors, aliases and tags are not followed (a head needs none), so a head can't unfold into more than it is. Depth, length
and number of values are bounded. Read event by event, so nothing is built that was not asked for.
"""

from dataclasses import dataclass, field

from hookwright.ground import LOOK, MUST_MEND, Finding, Span

MOST_CHARACTERS = 200_000
MOST_VALUES = 10_000
DEEPEST = 12
MOST_TRIES = 6  # lines left out before the rest of the head is given up


@dataclass(slots=True)
class Node:
    """kind: "map" (`entries`: key Node, value Node), "list" (`items`) or "words" (`words`)."""

    kind: str
    span: Span
    words: str = ""
    plain: bool = True
    entries: list = field(default_factory=list)
    items: list = field(default_factory=list)


def read_tree(text: str, start: int, end: int, findings: list[Finding]) -> Node | None:
    """The tree of text[start:end), or None with a finding that says where it stops making sense."""
    if end - start > MOST_CHARACTERS:
        findings.append(
            Finding(
                "head-not-read", MUST_MEND,
                f"the head is {end - start:,} characters long; up to {MOST_CHARACTERS:,} are read. Shorten it, or close it with a line of three dashes",
                Span(start, start + 3), expected=MOST_CHARACTERS, found=end - start,
            )
        )
        return None
    import yaml  # heads only

    body = "".join(char if char.isprintable() or char == "\n" else " " for char in text[start:end])
    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    for attempt in range(MOST_TRIES):
        made: list[Finding] = []
        builder = _Builder(body, start, made)
        try:
            for event in yaml.parse(body, Loader=loader):
                if not builder.take(event):
                    break
        except (yaml.YAMLError, ValueError, RecursionError) as problem:
            last = attempt + 1 == MOST_TRIES
            body, at = _without_line(body, _not_read(problem, body, start, findings, last))
            if last or at < 0:
                findings.extend(made)
                return builder.root
            continue
        findings.extend(made)
        return builder.root
    return None


def _without_line(body: str, at: int) -> tuple[str, int]:
    """The body with the line at `at` blanked, so that the rest can be read; -1 where there is nothing left to blank."""
    begin = body.rfind("\n", 0, at) + 1
    stop = body.find("\n", at)
    stop = len(body) if stop < 0 else stop
    if not body[begin:stop].strip():  # the line before is the one that was not closed
        begin = body.rfind("\n", 0, max(0, begin - 1)) + 1
        if not body[begin:stop].strip():
            return body, -1
    return body[:begin] + "".join(char if char == "\n" else " " for char in body[begin:stop]) + body[stop:], begin


# What the reader of YAML was about when it came to a mark it did not look for: then the fault is where that began.
_BEGUN = ("flow sequence", "flow mapping", "quoted scalar", "simple key")


def _not_read(problem, body: str, start: int, findings: list[Finding], last: bool) -> int:
    """Says which line could not be read and what to do; gives its offset in the body. A line of the same fault is folded into the first."""
    mark = getattr(problem, "problem_mark", None) or getattr(problem, "context_mark", None)
    begun = getattr(problem, "context_mark", None)
    context = getattr(problem, "context", "") or ""
    if begun is not None and any(words in context for words in _BEGUN):
        mark = begun
    at = min(mark.index if mark is not None else 0, len(body))
    while at > 0 and not _line_at(body, at)[2].strip():  # never the line of dashes, nor an empty one
        at = max(0, body.rfind("\n", 0, at))
    what = getattr(problem, "problem", "") or ""
    if "mapping values" in what:
        at = _line_without_colon(body, at)
    begin, stop, line = _line_at(body, at)
    written = line.strip()
    at = max(at, begin + len(line) - len(line.lstrip()))
    if "\t" in written or "character '\\t'" in what:
        way = "use spaces in place of tabs"
    elif "quoted scalar" in context:
        way = "close the quotation mark"
    elif "flow" in context or _unclosed(written):
        way = "look for a bracket or comma that is missing"
    elif written and ":" not in written and not written.startswith("-"):
        way = "write `key: value`, with a colon and a space after the key"
    elif ": - " in written:
        way = 'put quotation marks round a value that begins with a dash, as in `head: "- (40, 44) cm"`'
    elif "mapping values" in what or ": " in written:
        way = 'write one `key: value` a line; put quotation marks round a value that holds a colon, as in `title: "Hat: a study"`'
    elif any(mark in written for mark in "[{"):
        way = "look for a bracket or comma that is missing"
    elif written.startswith(("*", "&", "@", "%", "`", "!")):
        way = "put quotation marks round a value that begins with a sign"
    else:
        way = "look at the spaces before the line, and for a quotation mark or bracket that is not closed"
    number = body.count("\n", 0, begin) + 1
    rest = "What stands after it in the head is not used" if last else "The line is not used"
    words = f"line {number} of the head, `{written[:60]}`"
    span = Span(start + at, start + min(stop, at + max(1, len(written))))
    for index, earlier in enumerate(findings):
        if not last and earlier.kind == "head-not-read" and way in earlier.message:
            findings[index] = earlier.but(echoes=(*earlier.echoes, words), labels=(*earlier.labels, (span, "and here")))
            return at
    findings.append(Finding("head-not-read", MUST_MEND, f"{words}, could not be understood: {way}. {rest}", span))
    return at


def _line_at(body: str, at: int) -> tuple[int, int, str]:
    """(begin, end, text) of the line at an offset."""
    begin = body.rfind("\n", 0, at) + 1
    stop = body.find("\n", at)
    stop = len(body) if stop < 0 else stop
    return begin, stop, body[begin:stop]


def _line_without_colon(body: str, at: int) -> int:
    """Where the line above has no colon ("title Hat"), the colon that is one too many stands after it only for that: the place of that line."""
    begin = _line_at(body, at)[0]
    above = _line_at(body, begin - 1) if begin > 0 else None
    if above is None or not above[2].strip() or ":" in above[2] or above[2][0] in " -#]}":
        return at
    return above[0]


def _unclosed(written: str) -> bool:
    return written.count("[") > written.count("]") or written.count("{") > written.count("}")


class _Builder:
    """Takes YAML events and builds nodes, with a stack of its own."""

    def __init__(self, body: str, start: int, findings: list[Finding]):
        self.body, self.start, self.findings = body, start, findings
        self.root: Node | None = None
        self.stack: list[tuple[Node, list]] = []
        self.count = 0
        self.broken = False

    def take(self, event) -> bool:
        """Takes one event; False when nothing more should be read."""
        name = type(event).__name__
        if name in ("StreamStartEvent", "DocumentStartEvent", "StreamEndEvent"):
            return True
        if name == "DocumentEndEvent":
            return False
        span = Span(self.start + event.start_mark.index, self.start + event.end_mark.index)
        if name in ("MappingEndEvent", "SequenceEndEvent"):
            node, pending = self.stack.pop()
            node.span = Span(node.span.start, max(node.span.start, span.end))
            if node.kind == "map":
                node.entries = _joined(node, pending, self.body, self.start)
            else:
                node.items = pending if node.plain else _joined_items(pending, self.body, self.start)
            return True
        self.count += 1
        if self.count > MOST_VALUES:
            return self._stop(f"the head holds more than {MOST_VALUES:,} values; what comes after them is not used", span)
        if name == "AliasEvent":
            self.findings.append(
                Finding("head-not-read", LOOK, "a head takes no references (`*name`); write the value out, or put quotation marks round it", span)
            )
            self._place(Node("words", span, ""))
            return True
        if getattr(event, "anchor", None):
            self.findings.append(Finding("head-not-read", LOOK, f"a head takes no anchors (`&{event.anchor[:40]}`); write the value out where it is needed", span))
        if name == "ScalarEvent":
            words = event.value
            if len(words) > 20_000:
                words = words[:20_000]
            self._place(Node("words", span, words, plain=event.style in (None, "") if hasattr(event, "style") else True))
            return True
        if len(self.stack) >= DEEPEST:
            return self._stop(f"the head is nested more than {DEEPEST} deep here; a head needs three steps at most", span)
        node = Node("map" if name == "MappingStartEvent" else "list", span, plain=not getattr(event, "flow_style", False))
        self._place(node)
        self.stack.append((node, []))
        return True

    def _place(self, node: Node) -> None:
        if self.stack:
            self.stack[-1][1].append(node)
        elif self.root is None:
            self.root = node

    def _stop(self, message: str, span: Span) -> bool:
        self.findings.append(Finding("head-not-read", MUST_MEND, message, span))
        while self.stack:
            node, pending = self.stack.pop()
            if node.kind == "map":
                node.entries = _joined(node, pending, self.body, self.start)
            else:
                node.items = pending
        return False


def _joined(node: Node, pending: list[Node], body: str, start: int) -> list[tuple[Node, Node]]:
    """Pairs of key and value. In `{rib: 8 (9, 10), body: 24}` the comma inside brackets ends no value: such pieces are put together again."""
    pairs: list[tuple[Node, Node]] = []
    for index in range(0, len(pending) - 1, 2):
        key, value = pending[index], pending[index + 1]
        before = pairs[-1][1] if pairs else None
        if before is not None and not node.plain and before.kind == "words" and _open(before.words) and key.kind == "words":
            end = value.span.end if value.words or value.kind != "words" else key.span.end
            before.span = Span(before.span.start, end)
            before.words = body[before.span.start - start : end - start]
            continue
        pairs.append((key, value))
    return pairs


def _joined_items(pending: list[Node], body: str, start: int) -> list[Node]:
    items: list[Node] = []
    for node in pending:
        if items and items[-1].kind == "words" and node.kind == "words" and _open(items[-1].words):
            items[-1].span = Span(items[-1].span.start, node.span.end)
            items[-1].words = body[items[-1].span.start - start : node.span.end - start]
            continue
        items.append(node)
    return items


def _open(words: str) -> bool:
    return words.count("(") > words.count(")")
