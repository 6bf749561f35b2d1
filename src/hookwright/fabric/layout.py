"""The row below, as the row being worked meets it: a line of places in working order."""

from bisect import bisect_left

from . import kinds
from .kinds import CHAINS, FOUNDATION, LAYER, ROW_END


class Layout:
    """Places of the row below in the order in which they are met.

    kind   per cell: number of the stitch kind; CHAINS for a chain space, FOUNDATION for one chain of a foundation
    size   per cell: chains of a chain space, 0 otherwise
    item   per cell: index in the row below's columns (None: the same as the cell's own)
    groups [(first cell, end cell, name)] of stitches that share a place, in order
    corners set of cells that are corner spaces;  tops set of cells that are turning chains
    ring   everything goes into a ring
    """

    __slots__ = ("kind", "size", "item", "groups", "corners", "tops", "ring", "plain", "stitches", "order", "_matches",
                 "n", "joined", "_key", "hook_chain", "far_chain", "home", "far", "closed", "rotated_from")

    def __init__(self, kind, size=None, item=None, groups=(), corners=(), tops=(), ring=False, joined=False):
        self.kind = kind
        self.n = len(kind)
        self.plain = CHAINS not in kind
        self.size = size if size is not None else [0] * self.n
        self.item = item
        self.groups = list(groups)
        self.corners = frozenset(corners)
        self.tops = frozenset(tops)
        self.ring = ring
        self.joined = joined
        # indexes of the cells that are stitches, so that the k-th stitch on from here is a look-up
        self.order = range(self.n) if self.plain else [i for i, k in enumerate(kind) if k != CHAINS]
        self.stitches = len(self.order)
        self._matches = {}
        self._key = None
        self.hook_chain = 0
        self.far_chain = 0  # chains with which the row below was turned, where they now lie at the far end and stand for no stitch
        self.home = None  # index of the row these places belong to, where it is not the row worked last
        self.closed = False  # the last cell stands for the loop that closed the round, in which the hook is at its start
        self.rotated_from = None  # (layout, cell) this round was begun anew from: groups cut by that are whole there
        self.far = {}  # cell -> (row index, index in its columns) for places of a further row

    def key(self):
        """What tells this layout from another, for reusing a row worked before on the same places."""
        if self._key is None:
            self._key = (tuple(self.kind), None if self.plain else tuple(self.size), self.corners, self.tops,
                         None if self.item is None else tuple(self.item), tuple(self.groups), self.ring, self.joined,
                         self.hook_chain, self.far_chain)
        return self._key

    @property
    def onto(self) -> str:
        """"row ends" or "layers" where its places are such and no stitches, else ""."""
        return {ROW_END: "row ends", LAYER: "layers"}.get(self.kind[0], "") if self.kind else ""

    def rank(self, cell: int) -> int:
        """How many stitches lie before this cell."""
        return cell if self.plain else bisect_left(self.order, cell)

    def left(self, cell: int) -> int:
        """Stitches from this cell to the end."""
        return self.stitches - (cell if self.plain else bisect_left(self.order, cell))

    def spaces(self):
        """Cells that are chain spaces."""
        found = self._matches.get("sp")
        if found is None:
            found = self._matches["sp"] = [i for i, k in enumerate(self.kind) if k == CHAINS]
        return found

    def space_places(self):
        """Chain spaces; where there are none, turning chains, which lace and corner to corner work into like spaces."""
        return self.spaces() or sorted(self.tops)

    def corner_cells(self):
        """Corner spaces: those made as corners, else all of the largest size where sizes differ, else all spaces."""
        found = self._matches.get("corner")
        if found is None:
            if self.corners:
                found = sorted(self.corners)
            else:
                spaces = self.spaces()
                largest = max((self.size[i] for i in spaces), default=0)
                found = [i for i in spaces if self.size[i] == largest]
            self._matches["corner"] = found
        return found

    def corner_stitches(self):
        """Corners of a round without spaces: the middle one of each 3 (or 5) stitches that share a place."""
        if not self.plain:
            return []
        longest = max((end - start for start, end, _ in self.groups), default=0)
        found = [start + longest // 2 for start, end, _ in self.groups if end - start == longest]
        return found if longest in (3, 5) and len(found) <= 12 else []

    def gaps(self):
        """Cells after which one group ends and another begins, with no chain between."""
        whole, begun = self.rotated_from or (self, 0)
        return frozenset((end - 1 - begun) % self.n for _, end, _ in whole.groups if whole.kind[end % self.n] != CHAINS)

    def of_kind(self, of: str):
        """Cells of one stitch kind and of that stitch worked together; the empty list where there are none."""
        found = self._matches.get(of)
        if found is None:
            wanted = {kinds.number(of)} | {k for k in set(self.kind) if k >= kinds.FIRST_STITCH and kinds.together(kinds.NAMES[k]) == of}
            found = [i for i, k in enumerate(self.kind) if k in wanted]
            self._matches[of] = found
        return found

    def built_on(self, of: str):
        """Cells whose stitch is built on the plain stitch `of` (dc, fpdc, dc2tog ... for "dc")."""
        key = "on " + of
        found = self._matches.get(key)
        if found is None:
            found = self._matches[key] = [
                i for i, k in enumerate(self.kind) if k >= kinds.FIRST_STITCH and kinds.plain_of(kinds.NAMES[k]) == of
            ]
        return found

    def turned(self) -> "Layout":
        """The same places met from the other end."""
        n = self.n
        last = n - 1
        item = [last - i for i in range(n)] if self.item is None else self.item[::-1]
        made = Layout(self.kind[::-1], self.size[::-1], item,
                      [(n - b, n - a, name) for a, b, name in reversed(self.groups)],
                      [last - c for c in self.corners], [last - c for c in self.tops], self.ring, self.joined)
        made.far_chain = self.hook_chain if self.hook_chain > 1 else 0
        return made

    def rotated(self, start: int) -> "Layout":
        """The round begun at another cell: what lies before it comes last."""
        if not start:
            return self
        n = self.n
        if self.rotated_from is not None:
            whole, begun = self.rotated_from
            return whole.rotated((begun + start) % n)
        item = list(range(n)) if self.item is None else self.item
        groups = sorted((((a - start) % n, (a - start) % n + b - a, name) for a, b, name in self.groups))
        made = Layout(self.kind[start:] + self.kind[:start], self.size[start:] + self.size[:start],
                      item[start:] + item[:start], [g for g in groups if g[1] <= n],
                      [(c - start) % n for c in self.corners], [(c - start) % n for c in self.tops], self.ring, self.joined)
        made.rotated_from = (self, start)
        return made

    def spaces_counted(self) -> "Layout":
        """The same places with each chain space counted as a stitch among the others; it is still a space where one is asked for."""
        made = Layout(self.kind, self.size, self.item, self.groups, self.corners, self.tops, self.ring, self.joined)
        made.hook_chain, made.far_chain, made.home, made.closed, made.rotated_from, made.far = self.hook_chain, self.far_chain, self.home, self.closed, self.rotated_from, self.far
        made.order, made.stitches = range(self.n), self.n
        return made

    def cut(self, stitches: int) -> "Layout":
        """Only the first `stitches` stitches (and the spaces between them)."""
        if stitches >= self.stitches:
            return self
        end = self.order[stitches]
        while end > 0 and self.kind[end - 1] == CHAINS:
            end -= 1
        return Layout(self.kind[:end], self.size[:end], None if self.item is None else self.item[:end],
                      [g for g in self.groups if g[1] <= end], [c for c in self.corners if c < end],
                      [c for c in self.tops if c < end], self.ring, False)


def closing_loop(lay: Layout) -> Layout:
    """A round of loops closed by a short chain and a tall stitch: that pair is one loop and the hook stands on it already."""
    if lay.n < 5 or lay.kind[-2] != CHAINS or lay.kind[-1] == CHAINS or kinds.height(kinds.NAMES[lay.kind[-1]]) <= 1:
        return lay
    if any(kinds.height(kinds.NAMES[lay.kind[i]]) > 1 for i in lay.order[:-1]) or len(lay.spaces()) < 3:
        return lay
    keep = [i for i in range(lay.n) if i != lay.n - 2]
    item = lay.item or range(lay.n)
    made = Layout([lay.kind[i] for i in keep], [lay.size[i] for i in keep], [item[i] for i in keep], lay.groups,
                  [c for c in lay.corners if c < lay.n - 2], [c for c in lay.tops if c < lay.n - 2])
    made.closed = True
    return made


def foundation(chains: int, joined: bool = False) -> Layout:
    """A foundation chain walked from the hook back; a joined one from its first chain on."""
    return Layout([FOUNDATION] * chains, joined=joined)


def row_ends(count: int) -> Layout:
    """`count` row ends along a side of flat work."""
    return Layout([ROW_END] * count)


def ring(chains: int = 0) -> Layout:
    """A ring to work into; of `chains` chains where it is one of chains, which may also be worked into one by one."""
    made = Layout([], ring=True, joined=True)
    made.hook_chain = chains
    return made


def plain(kind: str, count: int) -> Layout:
    """A row of `count` stitches of one kind."""
    return Layout([kinds.number(kind)] * count)
