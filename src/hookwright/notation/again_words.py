"""How references to rows are phrased, as patterns; again.py puts them together."""

import re

from .label_numbers import ROW_WORD
from .number_words import CARDINAL_PATTERN, ORDINAL_PATTERN
from .patterns import Lazy

WORD = rf"(?:{ROW_WORD})"
VERB = r"(?:(?:(?:cont(?:inue|inuing)?\.?|keep|carry\s+on)\s+(?:to\s+)?)?r(?:ep(?:eat(?:ing)?|eated)?|pt)\.?|(?:keep|carry|go)\s+(?:on\s+|going\s+)?(?:doing|working|making|crocheting|with|at)|(?:keep|carry|go)\s+(?:on|going)(?=\s+(?:as|like|the\s+same)\b)|stick\s+(?:with|to)|more\s+of|work(?:ing)?|cont(?:inue|inuing)?\.?(?:\s+with)?|follow|crochet|make|cr)"
NUMBER_WORD = rf"(?:\d{{1,9}}|(?:{CARDINAL_PATTERN})(?![a-z]))"
START = Lazy(
    rf"\s*(?:(?:then|now|and|next|all\s+\w+)[,:]?\s+)?(?:(?:just|simply|again|do\s+it|you|we|this\s+(?:row|rnd|round)?\s*is|it's|do|keep\s+(?:going|on)|go\s+on|proceed|(?:these|they|all)\s+are(?:\s+all)?)[,:]?\s+){{0,3}}(?:(?P<as>(?:(?:{VERB}|inc(?:rease)?|dec(?:rease)?)\s+(?:(?:these|this|those|all|both|the|each|every)\s+(?:{WORD})\s+)?)?(?:(?:exactly|just)\s+|in\s+)?(?:the\s+)?(?:(?:exact|very)\s+)?(?:(?:as|like)\s+(?:you|we|i)(?:'ve)?\s+(?:did|worked|made|have\s+done)|as|like|same\s+(?:thing\s+)?(?:as|like)|same|identical\s+(?:to|with)|similar\s+to|equals?(?:\s+to)?|ditto|=|see(?=\s+(?:{WORD})\s*\d+\s*[.;]?\s*$)|what\s+(?:you|we|i)(?:'ve)?\s+(?:did|worked|made|done))(?:\s+(?:for|given\s+for|on|in|with))?)|(?P<verb>{VERB}))"
    rf"(?:\s+(?:back\s+)?(?P<from>from))?(?:\s+|(?<==))(?:(?:the|all)\s+|both\s+(?!(?:the\s+)?(?:rows|rnds|rounds)\b))?(?:(?:pattern|patt|sequence)\s+of\s+(?:the\s+)?(?=r))?",
    re.I,
)
BARE = Lazy(rf"\s*(?:(?:just|simply|only|do|again|all|plain)[,:]?\s+){{0,2}}(?=(?:the\s+)?{WORD}\s*\d)", re.I)  # "Row 2 over and over"
BARE_ENDS = Lazy(r"[\s.,;!]*(?:$|[\[(=–—-]\s*\d)")
LIST = rf"(?:\s*[\(\[](?:[\d\s,;:/–—-]|{CARDINAL_PATTERN}(?![a-z]))+[\)\]]|(?<=\d)(?:\s?[-–—/]\s?\d{{1,6}}){{2,30}}(?!\d))"
LAST = Lazy(rf"(?:the\s+)?(?P<which>last|previous|prev\.?|preceding|prior|above|these|those|this|both)\s+(?P<n>{NUMBER_WORD}(?P<list>{LIST})?\s*)?(?:(?:pattern|patt|pat)\.?\s+)?(?P<word>{WORD}|one(?![a-z]))", re.I)
ROW_PATTERN = Lazy(rf"(?:the\s+|this\s+)?(?P<n>{NUMBER_WORD})[\s-]+{WORD}\s+(?:(?:stripe|colou?r)\s+)?(?:patt(?:ern)?|repeat|sequence)s?(?![a-z])", re.I)
MORE_ROWS = Lazy(rf"\s*(?:(?:work|crochet|cont(?:inue)?\.?)\s+)?(?:(?:for\s+)?(?:another\s+|a\s+further\s+)?)(?P<n>{NUMBER_WORD})(?P<list>{LIST})?\s+(?:more\s+|further\s+)?{WORD}(?:\s+more)?\s*,?\s*(?:by\s+)?(?=(?:rep(?:eat)?ing|(?:exactly\s+|just\s+|the\s+)?(?:as|like|same\s+as))\s)", re.I)
IN_PATTERN = Lazy(r"\s*(?:cont(?:inue|inuing)?|work)\.?\s+in\s+(?:the\s+)?(?:est\w*\s+)?patt?(?:ern)?\.?\s*,\s*(?=rep|rpt)", re.I)
BRACKETED = Lazy(r"\s*([\[(])\s*(?=rep|rpt)", re.I)  # "[Rep Rows 2-4] 3 times"
ONE_BEFORE = Lazy(rf"(?:the\s+)?(?:(?:one|{WORD})\s+(?:just\s+)?(?:before|above|prior|previous)(?![a-z])(?:\s+(?:it|this(?:\s+one)?)(?![a-z]))?|(?:last|before|previous)(?![a-z])(?=\s*(?:[.;,(\[=]|$|until|for\s)))", re.I)  # "same as the one before", "same as last"
ROWS = Lazy(rf"(?:the\s+)?(?P<word>{WORD})\s*(?:#|nos?\.?\s*)?\s*(?=\d|(?:{CARDINAL_PATTERN})(?![a-z]))", re.I)
ORDINALS = Lazy(rf"(?:the\s+)?(?=\d{{1,5}}(?:st|nd|rd|th|d)\b|(?:{ORDINAL_PATTERN})(?![a-z]))", re.I)
_NO_NAME = rf"(?:{WORD}|in|into|of|to|on|over|under|from|for|at|and|or|sts?|stitch\w*|ch|chains?|sp|sps|space\w*|each|every|across|around|along|until|next|same|all|last|first|rem\w*|above|below|[shd]?[sdh]c|h?tr|beg\w*|end\w*|even|odd|working|by)"
CALLED = Lazy(rf"(?:the\s+)?(?:(?!{_NO_NAME}(?![\w'-]))[A-Za-z][\w'-]*\s+){{1,3}}(?={WORD}\s*\d)", re.I)  # "Dec Rnd 1", "Left Strap Row 2"
BETWEEN = Lazy(  # "work one fewer st between decreases than in Rnd 4"
    rf"\s*(?:(?:work(?:ing)?|having|with|leav(?:e|ing)|make|making)\s+)?(?P<n>{NUMBER_WORD}|an?)\s+(?:(?:sts?|stitch(?:es)?|[sdh]d?c|h?tr)\s+)?(?P<more>more|extra|additional|fewer|less)\s+(?:(?:sts?|stitch(?:es)?|[sdh]d?c|h?tr)\s+)?"
    r"(?:in\s+)?between\s+(?:each\s+|the\s+)?(?:incs?|decs?|increases?|decreases?|shapings?)(?:(?P<than>\s+(?:than|as)\s+(?:(?:in|on|for)\s+)?)|(?![a-z]))",
    re.I,
)
LETTERS = Lazy(rf"(?P<word>{WORD})\s*(?:\((?P<a>[a-z])\)|(?P<b>(?-i:[A-Z])))(?![\w'])(?:\s*(?:,|and|&)\s*(?:{WORD}\s*)?(?:\((?P<c>[a-z])\)|(?P<d>(?-i:[A-Z])))(?![\w']))?", re.I)
NAMED = Lazy(
    rf"(?P<name>(?:(?:foundation|set[- ]?up|decrease|dec|increase|inc|pattern|patt|pat|ridge|eyelet|base|first|mesh|shell|lace|cable|bobble)\s+){{1,2}}){WORD}(?!\s*\d)", re.I
)
OF_PIECE = Lazy(r"\s+(?:of|from|for|(?:(?:given|worked|written|set)\s+)?(?:exactly\s+)?(?:as|like)\s+(?:(?:given\s+)?(?:for|on|in)\s+)?)\s*(?:the\s+)?(?P<name>(?-i:[A-Z])[\w']*(?:\s+(?-i:[A-Z])[\w']*){0,3}|(?<=of\s)(?:the\s+)?(?!pat|rep|row|r(?:ou)?nd|motif|chart|seq|set|colou?r|stripe|shaping|size|this|these|each|all|last|next|it)[a-z]{3,12}(?:\s+(?!patt?|until|and|or|for|but|then)[a-z]{3,12})?(?=\s*(?:[.;,(\[]|$|until|for\s|\d|x\s?\d|one|two|three|four|five|six|seven|eight|nine|ten)))")
PIECE_ONLY = Lazy(r"(?:given\s+)?(?:for|on|in|of)?\s*(?:the\s+)?(?P<name>(?-i:[A-Z])[\w'-]*(?:\s+(?-i:[A-Z])[\w'-]*){0,3}|(?:first|previous|other)\s+(?:motif|square|piece|side|sleeve|sock|mitten|slipper|leg|arm|front|half))(?=\s*(?:[.;,:(\[]|$))")
ALTERNATE = Lazy(
    rf"\s*alternat(?:e|ing)\s+(?:between\s+)?(?:the\s+)?(?:(?:last|these|those)\s+(?:(?P<n>{NUMBER_WORD})\s+)?{WORD}|(?P<rows>{WORD}\s*(?=[\d(])))", re.I
)
EVEN = Lazy(
    rf"\s*(?:(?:now|then|next)[,:]?\s+)?(?:(?:you|we)(?:\s+will|'ll)?\s+)?(?:(?P<verb>work(?:ing)?|cont(?:inue|inuing)?\.?|crochet)\s+)?(?:(?P<lead>[sdh]d?c|h?tr)\s+(?:(?:around|across)\s+)?(?:for\s+)?(?:the\s+next\s+)?(?=\d|{CARDINAL_PATTERN}))?(?:(?P<n>{NUMBER_WORD})(?P<list>\s*[\(\[][\d\s,;:/-]+[\)\]])?\s*(?:more\s+)?(?P<rows>{WORD})(?:,\s*|\s+))?"
    r"(?:(?P<stitch>[a-z]{1,4}[ -]?[a-z]{0,9})\s+)?(?P<even>even(?:ly)?|straight|unchanged|plain(?=\s*(?:[.;,(\[=]|$))|(?:without|with\s+no|no)\s+(?:any\s+)?(?:further\s+|more\s+)?(?:shaping|chang(?:es?|ing)|increas\w+|decreas\w+|incs?|decs?)(?:\s*(?:/|or|and|nor)\s*(?:increas\w+|decreas\w+|incs?|decs?))?)(?![a-z])"
    r"(?:\s+in\s+(?P<in>(?:(?!pat|the |est)[a-z]+\.?)(?:\s+(?:crochet|st|treble|double crochet))?))?",
    re.I,
)
ALONE = Lazy(r"\s*(?:[.;:,(\[=—–]|-\s|\d|for\b|until\b|$)", re.I)
_UNSHAPED = r"(?:(?:without|with\s+no|no)\s+(?:any\s+)?(?:further\s+|more\s+)?(?:shaping|chang|increas|decreas|incs?\b|decs?\b)|even\b|straight\b|unchanged\b|plain\b|as\s+before\b)"
COUNTED = Lazy(  # "24 sts, no inc or dec", "24 stitches each round", "24 each"
    rf"\s*\d{{1,4}}\s*(?:(?:sts?|stitches|columns?|loops)\b\.?(?:\s*\(?(?:in|on|for)?\s*(?:each|every|per)(?:\s+(?:time|{WORD}))?\)?)?|(?:each|every)(?:\s+(?:time|{WORD}))?)"
    rf"(?=\s*(?:$|[.;]\s*(?:$|[A-Z])|,?\s*(?:stuff|fasten|leav|end\s+off|cut)|[,;(\[–—-]?\s*{_UNSHAPED}))",
    re.I,
)
PATTERN = Lazy(
    rf"\s*(?:(?P<verb>work(?:ing)?|cont(?:inue|inuing)?\.?|keep(?:\s+(?:on|going))?|(?:carry|carrying|go|going)\s+on|proceed)\s+)?(?:(?P<n>{NUMBER_WORD})(?P<list>\s*[\(\[][\d\s,;:/-]+[\)\]])?\s*(?:more\s+)?(?P<rows>{WORD})\s+)?"
    r"(?:to\s+work\s+|working\s+)?(?:(?:in|keeping|following)\s+)?(?:the\s+)?(?:(?:est\w*|set|same)\s+)?(?P<what>patt?(?:ern)?\.?(?:\s+(?:stitch|st))?(?:\s+as\s+(?:est\w*\.?|set|before|above|given))?"
    r"|as\s+(?:est\w*\.?|set|before)|(?:(?:all|each|every|post|your|of|the)\s+){0,3}(?:sts?|stitch(?:es)?)\s+as\s+(?:(?:they|it)\s+(?:appears?|faces?|presents?|comes?|lies?|looks?|stands?)(?:\s+(?:you|themselves|itself))?|est\w*\.?|set))(?![a-z])",
    re.I,
)
ROWS_OF = Lazy(
    rf"\s*(?:(?P<verb>work(?:ing)?|cont(?:inue|inuing)?\.?|crochet)\s+)?(?:(?:in|with)\s+)?(?:(?P<n>{NUMBER_WORD})(?P<list>\s*[\(\[][\d\s,;:/-]+[\)\]])?\s+)?(?:more\s+)?(?:(?P<rows>{WORD})\s+(?:(?:of|in)\s+(?:\d{{1,4}}\s+)?)?|in\s+)?"
    r"(?P<in>[a-z]{2,6}(?:\s+(?:crochet|treble|double crochet))?)(?![a-z])(?=\s*(?:[.;]|$|until|for\s+(?:a\s+)?(?:\d|one|two|three|four|five|six|seven|eight|nine|ten|another|further)))",
    re.I,
)
IN_COLOUR = Lazy(  # "2 rows B", "Work 4 (6) rounds in Moss"
    rf"\s*(?:(?:then|now|and|next)\s+)?(?:(?P<verb>work|crochet|make)\s+)?(?P<n>{NUMBER_WORD})(?P<list>\s*[\(\[][\d\s,;:/-]+[\)\]])?\s*(?:more\s+)?{WORD}\s+(?:(?:each\s+)?(?:in|with|of|using)\s+)?(?P<colour>(?:colou?r\s+|yarn\s+)?"
    rf"(?-i:[A-HX]|MC\d?|CC\d?|(?!Sc|Dc|Hdc|Htr|Tr|Ch|Sl|Ss|Single|Double|Half|Treble|Rib|Even|Pat|Moss [Ss]t)[A-Z][a-z]{{2,14}}(?:\s[A-Z][a-z]{{2,14}})?))(?=\s*(?:[.;,(\[]|$))",
    re.I,
)
ONLY_COLOUR = Lazy(  # "Rows 3-4: B", "Rows 5-8: with Moss"
    r"\s*(?:(?:all\s+)?(?P<lead>in|with|using)\s+)?(?:colou?r\s+|yarn\s+)?(?-i:[A-HX]|MC\d?|CC\d?)(?=\s*(?:[.;]|$))|\s*(?:in|with|using)\s+(?:colou?r\s+)?(?-i:[A-Z][a-z]{2,14}(?:\s[A-Z][a-z]{2,14})?)(?=\s*(?:[.;]|$))",
    re.I,
)
STAR = Lazy(r"\s*\*\s*(?=(?:rep|rpt|work|cont)[a-z.]*\s)", re.I)
FROM_STAR = Lazy(r"[\s.;,]*r(?:ep(?:eat)?|pt)\.?\s+from\s+\*\s*", re.I)
MANNER = Lazy(
    r"\s*(?:(?:cont(?:inue|inuing)?|carry on|go on|proceed|keep(?: on)?(?=\s))\.?\s+(?:(?:to\s+)?(?:work(?:ing)?|going|building(?:\s+up)?)\s+)?)(?:(?:on|in|just|exactly)\s+){0,3}(?:(?:the|this|that)\s+)?(?:(?:same|this|that|similar)\s+)?"
    r"(?P<what>manner|way|fashion|(?:to\s+)?(?:inc|dec)[a-z.]*(?:\s+(?:in\s+(?:this|the same)\s+(?:way|manner)|as\s+(?:before|est\w*)))?)(?:\s+(?:as|like)\s+(?:the\s+)?(?:(?:previous|prev|last|before|above)\s*)?(?:rows?|rnds?|rounds?)?)?",
    re.I,
)

# ---------------------------------------------------------------- clauses after the reference

GAP = Lazy(r"[\s,;:]*(?:(?:and|then)\s+(?=for\b|until|end|work))?")
TIMES = Lazy(
    rf"(?:for\s+)?(?:(?P<total>(?:a\s+)?total\s+of\s+)|(?P<more1>(?:an?\s+)?(?:further|another|additional|extra)\s+)|x\s*)?(?P<n>{NUMBER_WORD}|[-–—](?=\s*[\(\[])|(?=[\(\[]))(?P<list>{LIST}{{0,3}})\s*(?P<more2>more|further|additional|other|extra)?\s*(?:times?|x(?![a-z\d]))"
    r"(?:\s*(?P<more3>more|again|further|over))?(?:\s*(?P<total2>in\s+(?:all|total)|total|altogether))?(?![a-z])",
    re.I,
)
ONCE = Lazy(r"(?P<n>once|twice|thrice)(?:\s+(?:(?P<more>more|again|further)|(?P<total>in\s+(?:all|total)|altogether)))?(?![a-z])|(?P<again>again(?!\s+and\s+again)|one more time)(?![a-z])|x\s?(?P<x>\d{1,6})(?![\d\w])", re.I)
ROW_COUNT = Lazy(
    rf"(?:for|over|(?:until|till)(?:\s+(?:(?:you|we)(?:'ve(?:\s+got)?|\s+have)|there\s+are|(?:you|we)(?:'ve|\s+have)\s+a\s+total\s+of|(?:(?:the|your)\s+)?(?:work|piece|strip|it)\s+(?:is|has)))?(?:\s+(?:worked|completed|made|done|got))?|,)?\s*(?:the\s+next\s+)?(?P<total>(?:an?\s+)?total\s+of\s+)?(?P<more1>(?:an?\s+)?(?:further|another|additional)\s+)?"
    rf"(?P<n>{NUMBER_WORD}|(?=[\(\[]))(?P<list>{LIST}{{0,3}})\s*(?P<more2>more|further|additional)?\s*(?P<word>{WORD})(?![a-z])(?:\s*(?P<total2>in\s+(?:all|total)|total|altogether|(?:have\s+been|are)\s+(?:worked|complete\w*|done|made|finished)))?",
    re.I,
)
TO_ROW = Lazy(rf"(?:until|till|to|through|thru|up\s+to(?:\s+and\s+including)?|(?:until\s+)?(?:the\s+)?end\s+of)\s+(?:(?:the\s+)?end\s+of\s+)?(?:{WORD})\s*(?P<n>\d{{1,9}})(?:\s+(?:is|are|has been)\s+(?:complete\w*|worked|reached))?", re.I)
DESIRED = Lazy(
    r"(?:(?:until|till|to|for)\s+)?(?:(?:the|your|it|piece|work|or)\s+)*(?:(?:is|measures?|reaches|reach|of|has)\s+)*(?:the\s+|your\s+|a\s+)?(?:desired|required|preferred|right|correct|wanted|wished)\s+(?:length|size|height|width|depth|measurement)s?"
    r"|(?:until|till|to)?\s*(?:it\s+is\s+)?as\s+(?:long|big|wide|large|tall|many\s+times)\s+as\s+(?:you\s+(?:like|want|wish|need)|desired|required|needed)|for\s+desired\s+length|to\s+length\s+required|until\s+(?:it\s+is\s+)?long\s+enough[^.;]*",
    re.I,
)
MEASURES = Lazy(
    r"(?:(?:until|till)\s+(?P<subject>[^.;]{0,160}?)\s*(?:measures?|measuring|is|are|reaches|reach|=)|to\s+measure)\s*(?:to\s+)?(?:approx(?:imately|\.)?|about|around|at least|nearly)?\s*(?=[\d½¼¾(\[])", re.I
)
PART = Lazy(r"\s*(?:(?:the|your|this)\s+)?(?P<part>[a-z]+(?:\s+[a-z]+){0,2})\s*", re.I)
NO_PART = Lazy(r"\b(?:it|you|your|they|there|this|that|which|all|and|or|now|piece|pieces|work|fabric|project|everything|length|height|width|depth|total|whole|measurement|size|in|at|from|of|to|has|have|been|side|row|rows|rounds?)\b", re.I)
FOR_LENGTH = Lazy(r"(?P<word>for|to|until|till)\s+(?:a\s+(?:length|depth|height)\s+of\s+)?(?:approx(?:imately|\.)?\s+|about\s+|another\s+|a\s+further\s+)?(?=[\d½¼¾(\[])", re.I)
FROM = Lazy(r"\s*(?:(?:in\s+)?(?:length|height|width|depth|long|wide|tall|deep|high)\s*)?(?:(?:measured\s+)?(?P<from>from\s+(?:the\s+)?[^.,;()\[\]]{2,60}))?", re.I)
STITCHES = Lazy(
    rf"(?:until|till)\s+(?:(?:there\s+are|there\s+is|there\s+will\s+be|(?:you|we)\s+(?:have|reach|get(?:\s+to)?|end\s+up\s+with)|(?:(?:the|each|your|last)\s+)*(?:row|rnd|round|work|piece)\s+has|it\s+has|reaching|having)\s+)?(?:only\s+|a\s+total\s+of\s+)?(?P<n>{NUMBER_WORD}|(?=[\(\[]))(?P<list>{LIST}{{0,3}})\s*(?:(?P<of>sts?|stitches|sc|dc|hdc|htr|tr)\b|(?=rem(?:ain(?:ing|s)?)?\b|are\s+left|left))\.?(?:\s*(?:rem(?:ain(?:ing|s)?)?\.?|are\s+left|left|in\s+(?:the\s+)?(?:row|rnd|round)|around))*",
    re.I,
)
ENDING = Lazy(
    rf"(?:,?\s*(?:and\s+)?(?:ending|end|finishing|finish|stopping)\s+|[.;,]?\s*(?:the|your)\s+last\s+{WORD}\s+(?:(?:that\s+)?you\s+(?:make|work|do)\s+)?(?:is|(?:should|will|must)\s+be)\s+)(?:(?:with|on|after|by\s+working|at)\s+)?(?:an?\s+|the\s+)?(?:(?P<side>RS|WS|right[- ]side|wrong[- ]side)(?:\s+{WORD})?|(?:repeat\s+of\s+|rep\s+of\s+)?{WORD}\s*(?P<n>\d{{1,7}})|(?P<ord>\d{{1,5}}(?:st|nd|rd|th|d)|(?:{ORDINAL_PATTERN}))\s+(?:pattern\s+|patt\s+)?{WORD})(?:\s+of\s+(?:the\s+)?patt?(?:ern)?)?(?:\s+row)?",
    re.I,
)
FACING = Lazy(r"(?:,?\s*(?:and\s+)?(?:ending|end|finishing)\s+(?:with\s+|so\s+that\s+)?(?:the\s+)?)(?P<side>RS|WS|right side|wrong side)\s+facing[^.;]{0,40}", re.I)
ALTERNATELY = Lazy(r"(?:alternately|alternating(?:\s+rows)?|in turn|in sequence)(?![a-z])(?!\s+(?:(?:colou?rs?|between|\d|one|two|three|four)\b|(?-i:[A-H]|MC|CC)\b))", re.I)
THEN = Lazy(rf"(?:,|;|\.)?\s*(?:and\s+)?then\s+(?:(?:r(?:ep(?:eat)?|pt)|work)\.?\s+)?(?=(?:the\s+)?(?:{WORD}|last|previous|\d{{1,4}}(?:st|nd|rd|th)))", re.I)
CHANGE = Lazy(
    r"(?:,|;|\.|—|-|\s\+)?\s*(?P<word>(?:but|except(?:ing)?(?:\s+(?:that|for))?|only|having|with\s+the\s+(?:exception|difference)|omitting|increasing|decreasing|inc(?=\s)|dec(?=\s)|working(?!\s+(?:in\s+)?(?:the\s+)?(?:following\s+)?(?:stripes?|striped?|colou?rs?)\b)|replacing|making|instead|adding|leaving|however|there\s+(?:will|should)\s+be|and\s+(?:inc|dec)\w*|with(?=\s+(?:\d|an?\s|one|two|three|ch\b|chain|(?:more|fewer|less)))|and(?=\s+(?:make|work|ch)\b)|(?:and|but)(?=\s+(?:working|adding|with|having|making)\s+(?:\d|an?|one|two|three)\s+(?:more|extra|additional|further)\b))\s"
    r"|(?=(?:\d|an?|one|two|three|four)\s+(?:more|extra|additional|further|fewer|less)\s+(?!times?\b|(?:rows?|rnds?|rounds?|repeats?)\b)[a-z]))\s*(?P<rest>(?:[^.;]|\.(?=[,)\w])|\.(?=\s+[a-z\d(])|;(?=\s*and\b))*)", re.I
)
MORE_GROUPS = Lazy(r"\b(?:more|extra|additional|further|increas\w+|adding)\b[^.;]{0,24}?\b(?:groups?|clusters?|shells?|blocks?|sets?)\b", re.I)  # "continue as set, with one more group on each side": no plain rows
VERBS = Lazy(r"(?:(?:having|working|work|making|make|with|this\s+time)\s+)*", re.I)
_AT_AN_EDGE = (
    r"(?:inc|dec)[a-z]*\.?\s+(?:(?:\d|one|two|an?)\s+)?(?:(?:sts?|stitch(?:es)?|[sdh]d?c|h?tr)\.?\s+)?(?:(?:at|on|in|over|into)\s+)?(?:the\s+)?(?:each|both|beg[a-z]*|start|end|first|last)"
    r"(?:\s+(?:and\s+)?(?:the\s+)?(?:first|last|ends?|sides?|edges?|beg[a-z]*|start|\d|sts?|stitch(?:es)?|of|the|row|rows|every|each|rnd|round)){0,8}"
)
EDGES = Lazy(  # "inc 1 st at each end", "decreasing one st at beg and end", "inc in first st, inc in last st"
    rf"{_AT_AN_EDGE}(?:\s*,\s*(?:and\s+)?{_AT_AN_EDGE})?\.?(?=\s*(?:[(\[.;=–—]|-\s|$))",
    re.I,
)
CORNERS = Lazy(r"\b(?:(?P<n>\d)\s*-?\s*ch(?:ains?)?|ch(?:ain)?\s*-?\s*(?P<m>\d))\b(?P<words>[^.;,]{0,30}?)\bcorners?\b", re.I)  # "3 ch in each corner", "ch-3 corners"
EVERY_NTH = Lazy(rf"\b(?:each|every)\s+(?:\d{{1,2}}(?:st|nd|rd|th)|{ORDINAL_PATTERN}|other)\s+(?:(?:and|&)\s+\d{{1,2}}(?:st|nd|rd|th)\s+)?(?:sts?|stitch|[sdh]d?c|h?tr|s\s?c|d\s?c)\b(?:\s+together\b)?", re.I)
_CHAINS = r"(?:ch(?:ain)?s?\s*-?\s*\d{1,2}|\d{1,2}\s*-?\s*ch(?:ain)?s?)(?![\w-])"
_LOOPS = r"(?:loops?|lps?|sps?|spaces?|arch(?:es)?|chains?)"
CHAINS_TOLD = Lazy(  # "chain 7 wherever it says chain 5", "replacing every ch 5 with ch 7", "the loops have 7 chains": the chains of all spaces
    rf"(?:every|each|all|the)\s+(?:the\s+)?{_CHAINS}s?\s+(?:with|by|into|to|made|becom\w+|turns?\s+into)\s+(?:an?\s+)?(?P<to>{_CHAINS})"
    rf"|(?:(?:all|every|each|the|your)\s+){{0,2}}{_LOOPS}\s+(?:(?:have|has|are|being|of|with|is|now|made|from|all|each)\s+){{1,3}}(?P<of>{_CHAINS})"
    rf"|(?P<now>{_CHAINS})\s*(?:\((?:not|instead\s+of|rather\s+than)[^()]*\)\s*)?(?:{_LOOPS}\s*(?=$|[.,;(])|(?:in|for)\s+(?:all|every|each|the)\s+(?:the\s+)?{_LOOPS}\b|wherever\b|whenever\b|where\s+it\b|(?:each|every)\s+time\b|throughout\b|between\b)", re.I
)
AS_FAR = Lazy(
    r",?\s*(?:across\s+|around\s+)?(?P<far>(?:up\s+)?to\s+(?:within\s+)?(?:the\s+)?(?:last|next|first|marker|corner)\b(?:[^.;]|\.(?=[,)\w]))*)(?=[.;]|$)", re.I
)
JOINED_ON = Lazy(r"(?:,|;)?\s*(?:and\s+|but\s+)?join(?:ing)?\s+(?:(?:the|this|one|two|\d)\s+)?(?:to|it|on|with|at|sides?|corners?|motifs?|squares?|edges?|as)\b[^.]*", re.I)  # join as you go, told in words
EXACTLY = Lazy(r"\b(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?:sts?|stitch(?:es)?|[sdh]d?c|h?tr)\s+between\b", re.I)  # "with 3 sts between incs"
COUNT_AFTER = Lazy(r"[.,]?\s*[(\[]\s*\d[^()\[\]]*[)\]]\s*$|\s*(?:[.;=–—:]|\s-+\s)\s*\d{1,6}\s*(?:sts?|stitch(?:es)?|[sdh]d?c|h?tr)\b\.?(?:\s*(?:in\s+(?:all|total)|total|altogether|around|made))?\.?\s*$", re.I)
CABLES = Lazy(r"(?:,|;)?\s*(?:and\s+)?(?:crossing|turning|twisting|working)\s+(?:the\s+|all\s+|your\s+)*cables?\b[^.;(]*", re.I)
GROWS = Lazy(
    r"increas|decreas|\binc\b|\bdec\b|\b(?:one|1|two|2)\s+(?:more|extra|additional|less|fewer)|more\s+(?:single\s+)?(?:groups?|sts?|stitches|dc|tr|sc|clusters?|shells?)|each\s+(?:side|end|corner|row|round|rnd)|extra|additional|grow|\b(?:one|1|two|2)\s+(?:sts?|stitch|[sdh]d?c|h?tr)\s+(?:more|less|fewer)\b|\badding\s+(?:an?|one|1|two|2)\s|every\s+(?:row|round|rnd)", re.I
)
FILLER = Lazy(
    r"(?:,?\s*(?:throughout|in\s+(?:the\s+)?patt?(?:ern)?(?:\s+as\s+(?:set|est\w*))?|for\s+(?:the\s+)?patt?(?:ern)?|across(?:\s+the\s+row)?|around|to\s+end|for\s+(?:all|each)\s+(?:rows?|rounds?|rnds?)|and\s+so\s+on|over\s+and\s+over(?:\s+again)?|again\s+and\s+again|(?:all\s+the|the\s+whole)\s+way(?:\s+(?:up|along|through|down))?|on\s+repeat|(?:each|every)\s+time|all\s+round|turn\s+(?:and\s+turn\s+)?about|on\s+(?:this|the\s+(?:other|second|next|new))\s+(?:motif|square|side|piece|one|block|hexagon|strip|half)|in\s+(?:the\s+)?same\s+(?:way|manner)))(?![a-z])", re.I
)
KEEPING = Lazy(
    r",?\s*(?:and\s+)?(?:always\s+)?(?:ending|end|finishing)\s+(?:up\s+)?with\s+(?:one|1|an?)\s+(?:more|extra|additional|new)\s+(?:[a-z]+\s+){1,2}(?:each|every|per|on\s+each|on\s+every|in\s+each)\s+(?:time|row|rnd|round)(?=\s*(?:[.;,(\[=]|$))|"
    r",?\s*(?:and\s+|but\s+)?(?:(?:always|remembering\s+to|remember\s+to|each\s+time|every\s+time)\s+)?(?:turn(?:ing)?|beg(?:in|inning)?|start(?:ing)?)\s+(?:(?:each|every|all|the)\s+(?:row|rnd|round|time)s?\s+)?(?:with|by)\s+(?:an?\s+)?(?:turning\s+)?(?:(?:ch(?:ain)?s?\s*-?\s*\d|\d\s*-?\s*ch(?:ain)?s?)(?:\s*,?\s*(?:(?:each|every)\s+(?:time|row|rnd|round)|at\s+(?:each|every|the)\s+(?:turn|start|beginning)(?:\s+of\s+(?:each|every)\s+(?:row|round|rnd))?|throughout|always))?)(?=\s*(?:[.;,(\[=]|$))"
    r"|,?\s*(?:and\s+)?(?:remembering\s+to\s+|always\s+)?(?:ch(?:ain)?\s*-?\s*\d|\d\s*ch)\s+(?:at|to)\s+(?:(?:the\s+)?(?:start|beg(?:inning)?)\s+of\s+)?(?:each|every)\s+(?:turn|row|round|rnd)(?=\s*(?:[.;,(\[=]|$))"
    r"|,?\s*(?:and\s+)?(?:with\s+|in\s+)?(?:an?\s+|the\s+)?(?:new|fresh|different|another|next)\s+(?:colou?r|shade)\b[^.;]*"
    r"|,?\s*(?:and\s+)?(?:keeping|maintaining|following|continuing|changing|alternating|matching|carrying|using|working|in)\s+(?:to\s+|the\s+|with\s+|in\s+)?[^.;]{0,40}?(?:colou?rs?|shades?|stripes?|sequence|pattern|patt|chart|(?-i:\b[A-E])(?:,| and| at (?:the )?(?:end|start|beg)|\b(?= ?[.;]|$))|correct|rows each)[^.;]*?(?=,?\s+(?:and\s+)?(?:ending|end|until|finishing)\b|,?\s+(?:and|but)\s+(?:work(?:ing)?|add(?:ing)?|with|having|mak(?:e|ing))\s+(?:\d|an?|one|two|three)\s+(?:more|extra|additional|further)\b|[.;]|$)",
    re.I,
)
