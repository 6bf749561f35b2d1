// The words of the trade in her dialect: set in their colours, and offered while she types.
import { autocompletion, completionKeymap, acceptCompletion } from "@codemirror/autocomplete";
import { HighlightStyle, StreamLanguage, syntaxHighlighting } from "@codemirror/language";
import { Compartment, Prec } from "@codemirror/state";
import { keymap } from "@codemirror/view";
import { tags } from "@lezer/highlight";
import { t } from "../strings.js";

const LABEL = /^(?:(?:rows?|rnds?|rounds?)\s+\d+(?:\s*(?:-|–|to|and|&|,)\s*\{?[\w +*/-]+\}?)*|set-?up (?:row|rnd|round)|foundation(?: (?:row|rnd|round))?)\s*(?:\([^)\n]{1,40}\))?\s*:/i;
const COLOURS = HighlightStyle.define([
  { tag: tags.heading, class: "w-heading" },
  { tag: tags.labelName, class: "w-label" },
  { tag: tags.keyword, class: "w-stitch" },
  { tag: tags.operatorKeyword, class: "w-place" },
  { tag: tags.number, class: "w-number" },
  { tag: tags.variableName, class: "w-named" },
  { tag: tags.propertyName, class: "w-key" },
  { tag: tags.comment, class: "w-soft" },
  { tag: tags.bracket, class: "w-bracket" },
]);

const slot = new Compartment();

// given: {stitches: [{word, name, offer}], words: [{word, kind, name, offer}]}; called again where her dialect or own stitches change.
export function words(given) {
  return [slot.of(made(given)), syntaxHighlighting(COLOURS), Prec.high(keymap.of([{ key: "Tab", run: acceptCompletion }])), keymap.of(completionKeymap)];
}

export const wordsChanged = (given) => slot.reconfigure(made(given));

function made({ stitches = [], words: others = [] } = {}) {
  return [StreamLanguage.define(reader(stitches, others)), autocompletion({ override: [offering(stitches, others)], selectOnOpen: false, defaultKeymap: false, icons: false, maxRenderedOptions: 9 })];
}

function reader(stitches, others) {
  const kinds = new Map();
  for (const { word } of others) kinds.set(word.toLowerCase(), "operatorKeyword");
  for (const { word } of stitches) kinds.set(word.toLowerCase(), "keyword");
  const longest = Math.max(1, ...[...kinds.keys()].map((word) => word.split(/\s+/).length));
  return {
    startState: () => ({ head: null, first: true }),
    copyState: (state) => ({ ...state }),
    token(stream, state) {
      if (stream.sol()) {
        if (state.first && stream.match(/^---\s*$/)) return (state.first = false), (state.head = true), "comment";
        if (state.head && stream.match(/^---\s*$/)) return (state.head = false), "comment";
        state.first = false;
        if (!state.head) {
          if (stream.match(/^#{1,6}\s.*/)) return "heading";
          if (stream.match(LABEL)) return "labelName";
        }
      }
      if (state.head) {
        if (stream.match(/^[\w][\w ]*(?=:)/)) return "propertyName";
        if (stream.match(/^#.*/)) return "comment";
        if (stream.match(/^\d+(?:[.,]\d+)?/)) return "number";
        stream.next();
        stream.eatWhile(/[^\w#]/);
        return null;
      }
      if (stream.match(/^\{[^}\n]*\}/)) return "variableName";
      if (stream.match(/^\d+(?:st|nd|rd|th)\b/)) return "operatorKeyword";
      if (stream.match(/^\d+(?:[.,/]\d+)?/)) return "number";
      if (stream.match(/^[[\]()*]/)) return "bracket";
      const rest = stream.string.slice(stream.pos, stream.pos + 60);
      const parts = rest.match(/^[\p{L}\d'’-]+(?:[ -][\p{L}\d'’-]+){0,4}/u);
      if (parts) {
        const pieces = parts[0].split(" ");
        for (let many = Math.min(pieces.length, longest); many > 0; many--) {
          const said = pieces.slice(0, many).join(" ");
          const kind = kinds.get(said.toLowerCase()) ?? (many === 1 ? kindOfForm(said.toLowerCase(), kinds) : undefined);
          if (kind) return (stream.pos += said.length), kind;
        }
        stream.pos += pieces[0].length;
        return null;
      }
      stream.next();
      return null;
    },
    languageData: { closeBrackets: { brackets: ["(", "[", "{"] } },
  };
}

// dc2tog, sts, hdcs: a number of stitches together, or several
function kindOfForm(word, kinds) {
  const together = word.match(/^([a-z]+)\d+tog$/);
  if (together) return kinds.get(together[1]);
  return word.endsWith("s") ? kinds.get(word.slice(0, -1)) : undefined;
}

function offering(stitches, others) {
  const options = [...stitches.filter(({ offer }) => offer).map((one) => ({ one, boost: 2 })), ...others.filter(({ offer }) => offer).map((one) => ({ one, boost: 0 }))].map(({ one: { word, name }, boost }) => ({
    label: word,
    detail: name && name.toLowerCase() !== word.toLowerCase() ? name : undefined,
    boost,
  }));
  return (context) => {
    const line = context.state.doc.lineAt(context.pos);
    const before = line.text.slice(0, context.pos - line.from);
    if (inHead(context.state.doc, line.number)) return null;
    if (/^(?:r(?:o|ow?|nd?|ou(?:nd?)?)?)?$/i.test(before) && (before || context.explicit)) {
      const next = nextLabel(context.state.doc, line.number);
      if (next) return { from: line.from, options: [{ label: `${next} `, detail: t("next-row"), boost: 9 }, ...(before ? options : [])] };
    }
    const typed = before.match(/[\p{L}][\p{L}\d-]*$/u);
    if (!typed || (typed[0].length < 2 && !context.explicit)) return context.explicit ? { from: context.pos, options } : null;
    return { from: context.pos - typed[0].length, options, validFor: /^[\p{L}\d -]*$/u };
  };
}

function inHead(doc, number) {
  if (doc.line(1).text.trim() !== "---" || number === 1) return false;
  for (let at = 2; at <= Math.min(doc.lines, 400); at++) if (doc.line(at).text.trim() === "---") return number <= at;
  return false;
}

// "Row 7:" after a line that begins with "Row 6:" or "Rows 2-6:"
function nextLabel(doc, number) {
  for (let at = number - 1; at > 0 && at > number - 30; at--) {
    const found = doc.line(at).text.match(/^(row|rnd|round)s?\s+(?:\d+\s*(?:-|–|to)\s*)?(\d+)\b/i);
    if (found) return `${found[1]} ${Number(found[2]) + 1}:`;
    if (doc.line(at).text.startsWith("#")) return "Row 1:";
  }
  return null;
}
