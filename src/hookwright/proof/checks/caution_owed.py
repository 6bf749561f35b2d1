"""A caution is owed to those for whom the piece is made.

For babies, children and toys the pattern sheet adds what is usual to say of cords, small parts and loose ends, by what `for:` in the head
says and by what the instructions ask for. This finding tells you which, so that you can look at them, or make the design safer.

With it::

    ---
    title: Little Seal
    for: [toy]
    ---
    Rnd 1: 6 sc in magic ring. (6)
    Rnd 2: 2 sc in each st around. (12)

    Sew on 2 buttons for eyes.

Without it::

    ---
    title: Little Seal
    for: [toy]
    cautions:
      - Not for children under three because of the buttons, which are small parts that can be swallowed.
    ---
    Rnd 1: 6 sc in magic ring. (6)
    Rnd 2: 2 sc in each st around. (12)

    Sew on 2 buttons for eyes.

Working::

    for: toy; the instructions name buttons: small parts

What to do: embroider instead, keep cords short, or leave the caution to the sheet. With your own caution in the head this is silent.
"""

from hookwright.ground import NOTE, Finding, Suggestion, listing

from ..case import Case
from ..materials import instruction_text, listed

KIND = "caution-owed"
_ASKED_FOR = {"small-parts": "small parts", "cords": "cords and ties", "baby-blanket": "blankets and sleep", "heat": "heat", "loose-fibres": "loose fibres"}
_WORDS = {
    "small-parts": ("small part", "swallow", "chok", "button", "bead", "under three", "under 3", "eyes"),
    "cords": ("cord", "tie", "strangl", "ribbon", "strap"),
    "baby-blanket": ("sleep", "cot", "crib", "unattended", "watched"),
    "heat": ("heat", "hot", "oven", "burn"),
    "loose-fibres": ("fibre", "fiber", "fluff", "shed", "hairs", "pompom", "pom-pom", "fringe", "tassel"),
}


def find(case: Case):
    uses = case.from_head("for_") or ()
    if not uses:
        return
    from hookwright.writing import cautions_owed  # the writers are loaded only where something is made for someone

    yarn = " ".join(f"{each.name} {each.fibre}" for each in case.from_head("yarn") or ())
    own = " ".join(case.from_head("cautions") or ()).casefold()
    names = [name for name in cautions_owed(uses, f"{yarn}\n{listed(case)}\n{instruction_text(case)}") if name in _ASKED_FOR]
    names = [name for name in names if not any(word in own for word in _WORDS[name])]
    if not names:
        return
    said = listing([_ASKED_FOR[name] for name in names])
    yield Finding(
        KIND,
        NOTE,
        f"for {listing(uses)} a caution about {said} is owed; the pattern sheet adds it",
        case.span_in_head("for"),
        found=said,
        whose="what it is for",
        suggestions=(Suggestion("say it in your own words under `cautions:`, or design without", "your choice"),),
    )
