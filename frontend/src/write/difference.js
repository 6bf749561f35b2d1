// Where two texts differ, line by line, as few changes as is easily had.

// The changes that make `after` of `before`: [{from, to, insert}] in offsets of `before`.
export function changesBetween(before, after) {
  if (before === after) return [];
  const a = before.split("\n");
  const b = after.split("\n");
  return hunks(a, b).map(({ a0, a1, b0, b1 }) => {
    const from = a.slice(0, a0).reduce((sum, line) => sum + line.length + 1, 0);
    const gone = a.slice(a0, a1).join("\n");
    const come = b.slice(b0, b1).join("\n");
    if (a0 < a1 && b0 < b1) return narrowed(from, gone, come);
    if (a0 === a1) return a0 === a.length ? { from: before.length, to: before.length, insert: "\n" + come } : { from, to: from, insert: come + "\n" };
    return a1 === a.length ? { from: Math.max(from - 1, 0), to: before.length, insert: "" } : { from, to: from + gone.length + 1, insert: "" };
  });
}

// Within changed lines only from the first letter to the last that differ.
function narrowed(from, gone, come) {
  let start = 0;
  while (start < gone.length && start < come.length && gone[start] === come[start]) start++;
  let end = 0;
  while (end < gone.length - start && end < come.length - start && gone[gone.length - 1 - end] === come[come.length - 1 - end]) end++;
  return { from: from + start, to: from + gone.length - end, insert: come.slice(start, come.length - end) };
}

// Runs of lines that differ: [{a0, a1, b0, b1}], lines a0 to a1 of a against b0 to b1 of b.
export function hunks(a, b) {
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let enda = a.length;
  let endb = b.length;
  while (enda > start && endb > start && a[enda - 1] === b[endb - 1]) enda--, endb--;
  if (start === enda && start === endb) return [];
  if ((enda - start) * (endb - start) > 1e6) return [{ a0: start, a1: enda, b0: start, b1: endb }];
  return table(a, b, start, enda, endb);
}

// The longest common lines of the middle, by the table of their lengths.
function table(a, b, start, enda, endb) {
  const rows = enda - start;
  const columns = endb - start;
  const width = columns + 1;
  const best = new Uint16Array((rows + 1) * width);
  for (let i = rows - 1; i >= 0; i--)
    for (let j = columns - 1; j >= 0; j--)
      best[i * width + j] = a[start + i] === b[start + j] ? best[(i + 1) * width + j + 1] + 1 : Math.max(best[(i + 1) * width + j], best[i * width + j + 1]);
  const out = [];
  let i = 0;
  let j = 0;
  while (i < rows || j < columns) {
    if (i < rows && j < columns && a[start + i] === b[start + j]) {
      i++, j++;
      continue;
    }
    const hunk = { a0: start + i, b0: start + j };
    while ((i < rows || j < columns) && !(i < rows && j < columns && a[start + i] === b[start + j])) {
      if (j >= columns || (i < rows && best[(i + 1) * width + j] >= best[i * width + j + 1])) i++;
      else j++;
    }
    out.push({ ...hunk, a1: start + i, b1: start + j });
  }
  return out;
}
